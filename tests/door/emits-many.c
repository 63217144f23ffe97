/* Emits small files without an end. */
#include <stdio.h>

#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    char suffix[32];
    for (unsigned index = 0;; index++) {
        snprintf(suffix, sizeof suffix, "-%u.txt", index);
        if (emit(ctx, suffix, (const uint8_t *)"text", 4) != 0) {
            return 1;
        }
    }
}

DESCRIBE("emits-many", ".txt", export_document)
