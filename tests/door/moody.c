/* Crashes on a tray that is called crash-here, hangs on one that is called hang-here, and likes all others. */
#include <string.h>

#include "describe.h"

static int is_called(const uint8_t *document, size_t length, const char *name) {
    size_t letters = strlen(name);
    for (size_t at = 0; at + letters <= length; at++) {
        if (memcmp(document + at, name, letters) == 0) {
            return 1;
        }
    }
    return 0;
}

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    volatile int *nowhere = NULL;
    volatile int forever = 1;
    (void)say;
    if (is_called(document, length, "crash-here")) {
        *nowhere = 1;
    }
    while (forever && is_called(document, length, "hang-here")) {
    }
    return emit(ctx, ".txt", (const uint8_t *)"good\n", 5);
}

DESCRIBE("moody", ".txt", export_document)
