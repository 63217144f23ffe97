/* A good exporter: the box's inside measures as a line of text, read from the document without any library. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "describe.h"

static int32_t export_document(const uint8_t *document, size_t length, tw_emit emit, tw_say say, void *ctx) {
    static const char *const keys[3] = {"\"length\":", "\"width\":", "\"depth\":"};
    double sides[3];
    char line[128];
    int written, side;
    const char *at;
    char *text = malloc(length + 1);
    if (text == NULL) {
        say(ctx, "there is no memory for the document");
        return 1;
    }
    memcpy(text, document, length);
    text[length] = '\0';
    at = strstr(text, "\"box_size\":{");
    for (side = 0; side < 3 && at != NULL; side++) {
        at = strstr(at, keys[side]);
        if (at != NULL) {
            at += strlen(keys[side]);
            sides[side] = strtod(at, NULL);
        }
    }
    free(text);
    if (at == NULL) {
        say(ctx, "the document has no box");
        return 1;
    }
    written = snprintf(line, sizeof line, "box %.3f x %.3f x %.3f mm\n", sides[0], sides[1], sides[2]);
    return emit(ctx, "-box.txt", (const uint8_t *)line, (size_t)written);
}

DESCRIBE("figures", "-box.txt", export_document)
