/* Refuses every document without a reason. */
#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    return 3;
}

DESCRIBE("refuses-silently", ".txt", export_document)
