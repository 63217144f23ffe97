/* Says that all is well, and has made nothing. */
#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    return 0;
}

DESCRIBE("makes-nothing", ".txt", export_document)
