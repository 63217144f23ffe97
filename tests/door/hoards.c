/* Takes memory without an end, and does not look whether it gets any. */
#include <stdlib.h>

#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    for (volatile int forever = 1; forever;) {
        volatile char *hoard = malloc(1024 * 1024);
        hoard[0] = 1;
    }
    return 0;
}

DESCRIBE("hoards", ".txt", export_document)
