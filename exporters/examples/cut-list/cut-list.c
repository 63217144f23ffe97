/* An exporter in C, to show that a format takes an afternoon: a cut list as one line of CSV.
 *
 *   cc -std=c99 -shared -fPIC -fvisibility=hidden -I core/document/include \
 *      -o plugins/libtraywright_cut-list.so exporters/examples/cut-list/cut-list.c -lm
 *   traywright make JOB.kdl --as cut-list --plugins plugins
 *
 * Given the document as the program sends it (JSON), it reads the title, the extent of the blank and the toolpaths, and
 * writes what a workshop asks: the piece, its size, the length to crease and to cut, and how much of the rectangle around the
 * blank is used. It reads no field that it does not need, so it goes on working when fields are added. */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "traywright.h"

/* What is read of a document. Lengths in mm, areas in mm2. */
typedef struct {
    char title[512];
    double least[2], most[2];
    double creases, cuts, doubled_area;
    int strokes;
} sums;

static const char *value_of(const char *at, const char *key);

/* Behind white space. */
static const char *start(const char *at) {
    while (*at != '\0' && strchr(" \t\r\n", *at) != NULL) at++;
    return at;
}

/* Behind a string that begins here; its letters, quotes left off and escapes as they stand, into `text`. */
static const char *string(const char *at, char *text, size_t room) {
    size_t length = 0;
    for (at++; *at != '\0' && *at != '"'; at++) {
        int pair = *at == '\\' && at[1] != '\0';
        if (length + 2 < room) {
            text[length++] = *at;
            if (pair) text[length++] = at[1];
        }
        at += pair;
    }
    if (room > 0) text[length] = '\0';
    return *at == '"' ? at + 1 : at;
}

/* Behind a value of any kind. No value nests deeper than its brackets are counted. */
static const char *skip(const char *at) {
    int depth = 0;
    do {
        at = start(at);
        if (*at == '"') {
            at = string(at, NULL, 0);
        } else if (*at == '{' || *at == '[') {
            depth++;
            at++;
        } else if (*at == '}' || *at == ']') {
            depth--;
            at++;
        } else {
            while (*at != '\0' && strchr(",:]}", *at) == NULL) at++;
        }
        if (depth > 0 && (*at == ',' || *at == ':')) at++;
    } while (depth > 0 && *at != '\0');
    return at;
}

/* The value of a key in the object that begins here; NULL if it has no such key. */
static const char *value_of(const char *at, const char *key) {
    char name[64];
    if (at == NULL || *(at = start(at)) != '{') return NULL;
    at = start(at + 1);
    while (*at == '"') {
        at = start(string(at, name, sizeof name));
        if (*at != ':') return NULL;
        at = start(at + 1);
        if (strcmp(name, key) == 0) return at;
        at = start(skip(at));
        if (*at != ',') return NULL;
        at = start(at + 1);
    }
    return NULL;
}

/* The first element of the array that begins here, or the one behind another; NULL where there is none. */
static const char *first(const char *at) {
    if (at == NULL || *(at = start(at)) != '[') return NULL;
    at = start(at + 1);
    return *at == ']' || *at == '\0' ? NULL : at;
}
static const char *next(const char *at) {
    at = start(skip(at));
    return *at == ',' ? start(at + 1) : NULL;
}

/* The value under a path of keys, such as {"flat", "extent", NULL}. */
static const char *under(const char *at, ...) {
    va_list keys;
    const char *key;
    va_start(keys, at);
    while ((key = va_arg(keys, const char *)) != NULL) at = value_of(at, key);
    va_end(keys);
    return at;
}

static double number(const char *at) {
    return at == NULL ? 0.0 : strtod(at, NULL);
}

/* Adds the segments of a toolpath: their length, and twice the area on their left if it is closed. A bulge is the tangent
 * of a quarter of the angle swept (see the reference of DXF, group 42). */
static void add_path(const char *path, sums *all) {
    const char *contour = value_of(path, "contour");
    const char *start_at = value_of(contour, "start");
    const char *closed = value_of(contour, "closed");
    const char *step = value_of(path, "step");
    double from[2], length = 0.0, area = 0.0;
    const char *segment;
    from[0] = number(value_of(start_at, "x"));
    from[1] = number(value_of(start_at, "y"));
    for (segment = first(value_of(contour, "segments")); segment != NULL; segment = next(segment)) {
        const char *arc = value_of(segment, "arc");
        const char *body = arc != NULL ? arc : value_of(segment, "line");
        double to[2], chord, bulge = number(value_of(arc, "bulge"));
        to[0] = number(under(body, "to", "x", NULL));
        to[1] = number(under(body, "to", "y", NULL));
        chord = hypot(to[0] - from[0], to[1] - from[1]);
        area += from[0] * to[1] - to[0] * from[1];
        if (bulge == 0.0) {
            length += chord;
        } else {
            double angle = 4.0 * atan(bulge), radius = chord / (2.0 * fabs(sin(angle / 2.0)));
            length += radius * fabs(angle);
            area += radius * radius * (angle - sin(angle));
        }
        from[0] = to[0];
        from[1] = to[1];
    }
    if (step != NULL && strncmp(step, "\"cutting\"", 9) == 0) {
        all->cuts += length;
        if (closed != NULL && *closed == 't') all->doubled_area += area;
    } else {
        all->creases += length;
    }
    all->strokes++;
}

/* A name as a field of CSV: in quotes, with quotes inside doubled (RFC 4180); `text` has JSON's escapes still. */
static void quoted(const char *text, char *field, size_t room) {
    size_t length = 0;
    field[length++] = '"';
    for (; *text != '\0' && length + 3 < room; text++) {
        if (*text == '\\' && text[1] != '\0' && text[1] != 'u') text++;
        if (*text == '"') field[length++] = '"';
        field[length++] = *text;
    }
    field[length++] = '"';
    field[length] = '\0';
}

static int32_t write_list(const sums *all, int holds, tw_emit emit, tw_say say, void *ctx) {
    char field[1100], lines[2048];
    double length = all->most[0] - all->least[0], width = all->most[1] - all->least[1];
    double rectangle = length * width, use = rectangle > 0.0 ? 50.0 * all->doubled_area / rectangle : 0.0;
    int written;
    quoted(all->title, field, sizeof field);
    /* With gaps the outline is open and has no area of its own: the use of the sheet is left out, not guessed. */
    written = snprintf(lines, sizeof lines,
                       "piece,length_mm,width_mm,crease_mm,cut_mm,strokes,sheet_use_percent\r\n"
                       "%s,%.2f,%.2f,%.1f,%.1f,%d,",
                       field, length, width, all->creases, all->cuts, all->strokes);
    if (!holds) written += snprintf(lines + written, sizeof lines - (size_t)written, "%.1f", use);
    written += snprintf(lines + written, sizeof lines - (size_t)written, "\r\n");
    if (holds) say(ctx, "with gaps in the outline the use of the sheet is left out");
    return emit(ctx, "-cut-list.csv", (const uint8_t *)lines, (size_t)written);
}

static int32_t export_document(const uint8_t *bytes, size_t length, tw_emit emit, tw_say say, void *ctx) {
    sums all = {0};
    const char *document, *extent, *path, *title;
    int32_t outcome = 1;
    char *text = malloc(length + 1);
    if (text == NULL) {
        say(ctx, "there is no memory for the document");
        return 1;
    }
    memcpy(text, bytes, length);
    text[length] = '\0';
    document = value_of(text, "document");
    extent = under(document, "flat", "extent", NULL);
    title = value_of(document, "title");
    path = first(value_of(document, "toolpaths"));
    if (extent == NULL || title == NULL || *title != '"' || path == NULL) {
        say(ctx, "the document has no title, no extent or no toolpaths");
    } else {
        string(title, all.title, sizeof all.title);
        all.least[0] = number(under(extent, "least", "x", NULL));
        all.least[1] = number(under(extent, "least", "y", NULL));
        all.most[0] = number(under(extent, "most", "x", NULL));
        all.most[1] = number(under(extent, "most", "y", NULL));
        for (; path != NULL; path = next(path)) add_path(path, &all);
        outcome = write_list(&all, under(document, "output", "machine", "nicks", NULL) != NULL, emit, say, ctx);
    }
    free(text);
    return outcome;
}

const tw_exporter *traywright_exporter(void) {
    static const tw_exporter exporter = {TRAYWRIGHT_SCHEMA, sizeof(tw_exporter), "cut-list", "-cut-list.csv",
                                         export_document};
    return &exporter;
}
