/* Answers well, and crashes when the process ends. */
#include <stdlib.h>

#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    atexit(abort);
    return emit(ctx, ".txt", (const uint8_t *)"text", 4);
}

DESCRIBE("crashes-late", ".txt", export_document)
