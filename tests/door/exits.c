/* Leaves the process as if all were well, after one good file. */
#include <stdlib.h>

#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    emit(ctx, ".txt", (const uint8_t *)"text", 4);
    exit(0);
}

DESCRIBE("exits", ".txt", export_document)
