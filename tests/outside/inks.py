"""Lists the separations, layers and boxes of a traywright PDF with a library that knows nothing of traywright.

Usage: inks.py FILE. pikepdf reads the file; prints one JSON object.
"""

import json
import sys

import pikepdf


def main():
    file = pikepdf.open(sys.argv[1])
    pages = []
    for page in file.pages:
        spaces = page.Resources.ColorSpace
        inks = {str(space[1])[1:]: [float(part) for part in space[3].C1] for space in spaces.values() if space[0] == "/Separation"}
        used, overprinted, states = [], True, page.Resources.ExtGState
        inside, state = None, None
        for operands, operator in pikepdf.parse_content_stream(page):
            word = str(operator)
            if word == "BDC":
                inside, state = str(page.Resources.Properties[operands[1]].Name), None
            elif word == "EMC":
                inside = None
            elif word == "gs":
                state = states[operands[0]]
            elif word in ("CS", "cs"):
                used.append([inside, str(operands[0])[1:]])
            elif word in ("S", "s", "f", "f*", "B") and inside:
                overprinted = overprinted and state is not None and bool(state.OP) and bool(state.op)
        boxes = {name: [float(side) for side in page[f"/{name}"]] for name in ("MediaBox", "TrimBox", "BleedBox")}
        pages.append({"inks": inks, "used": sorted(set(map(tuple, used))), "overprinted": overprinted, **boxes})
    steps = {str(group.Name): {str(key)[1:]: str(value)[1:] for key, value in group.GTS_Metadata.items()} for group in file.Root.OCProperties.OCGs}
    with file.open_metadata() as metadata:
        title = metadata.get("dc:title")
    print(json.dumps({"pages": pages, "steps": steps, "title": title}))


main()
