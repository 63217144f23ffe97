/* Closes every stream, and stays: the program sees the end of its answers and stops it. */
#define _POSIX_C_SOURCE 200809L
#include <unistd.h>

#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    for (int stream = 0; stream < 64; stream++) {
        close(stream);
    }
    for (volatile int forever = 1; forever;) {
        sleep(1);
    }
    return 0;
}

DESCRIBE("closes", ".txt", export_document)
