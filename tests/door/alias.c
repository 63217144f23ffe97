/* Has another name than its file. */
#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    return 1;
}

DESCRIBE("somebody-else", ".txt", export_document)
