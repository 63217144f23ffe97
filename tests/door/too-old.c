/* Reads documents of schema 0, and has nothing after the two numbers that every descriptor begins with. */
#include "describe.h"

const tw_exporter *traywright_exporter(void) {
    static const uint32_t head[2] = {0u, 8};
    return (const tw_exporter *)(const void *)head;
}
