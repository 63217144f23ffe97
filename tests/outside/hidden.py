"""Tells which characters draw nothing, and what words a DXF has.

Usage: hidden.py codes prints a JSON object: the codes of each of the general categories Cc, Cf, Zl and Zp of Python's own copy of
the Unicode character database. hidden.py words FILE.dxf prints the words of the file as ezdxf reads them, its
codes of letters decoded.
"""

import json
import sys
import unicodedata


def codes():
    found = {category: [] for category in ("Cc", "Cf", "Zl", "Zp")}
    for code in range(sys.maxunicode + 1):
        category = unicodedata.category(chr(code))
        if category in found:
            found[category].append(code)
    return found


def words(path):
    import ezdxf
    from ezdxf.lldxf import encoding

    found = [text.dxf.text for text in ezdxf.readfile(path).modelspace().query("TEXT")]
    found = [encoding.decode_dxf_unicode(text) for text in found]
    return [encoding.decode_mif_to_unicode(text) if encoding.has_mif_encoding(text) else text for text in found]


print(json.dumps({"codes": codes, "words": words}[sys.argv[1]](*sys.argv[2:])))
