/* Emits a file that is nowhere, and does not care for the answer. */
#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    emit(ctx, ".txt", NULL, 4);
    return 0;
}

DESCRIBE("no-content", ".txt", export_document)
