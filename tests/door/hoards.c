/* Takes memory without an end. */
#include <stdlib.h>
#include <string.h>

#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    for (volatile int forever = 1; forever;) {
        char *hoard = malloc(1024 * 1024);
        memset(hoard, 1, 1024 * 1024);
    }
    return 0;
}

DESCRIBE("hoards", ".txt", export_document)
