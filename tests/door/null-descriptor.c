/* Describes itself with nothing. */
#include "describe.h"

const tw_exporter *traywright_exporter(void) {
    return NULL;
}
