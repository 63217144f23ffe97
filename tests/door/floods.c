/* Emits without an end. */
#include <stdlib.h>

#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    size_t size = 1024 * 1024;
    uint8_t *bytes = calloc(size, 1);
    if (bytes == NULL) {
        return 1;
    }
    while (emit(ctx, ".txt", bytes, size) == 0) {
    }
    free(bytes);
    return 1;
}

DESCRIBE("floods", ".txt", export_document)
