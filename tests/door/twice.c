/* Emits two files of one name. */
#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    emit(ctx, ".txt", (const uint8_t *)"text", 4);
    emit(ctx, ".txt", (const uint8_t *)"text", 4);
    return 0;
}

DESCRIBE("twice", ".txt", export_document)
