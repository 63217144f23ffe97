/* Never comes back from being loaded. */
#include "describe.h"

__attribute__((constructor)) static void loop(void) {
    for (volatile int forever = 1; forever;) {
    }
}

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    UNUSED_ARGUMENTS;
    return 1;
}

DESCRIBE("loops-on-loading", ".txt", export_document)
