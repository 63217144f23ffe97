/* Writes to address 0. */
#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    volatile int *nowhere = NULL;
    *nowhere = 1;
    return 0;
}

DESCRIBE("null-write", ".txt", export_document)
