"""Pictures as pixels: reads them and measures runs of dark pixels; edges of lines in groups. Knows nothing of PDF."""

import pathlib

import numpy


def read_picture(path):
    """A PGM as rows of grey."""
    data = path.read_bytes()
    words, at = [], 0
    while len(words) < 4:
        end = at
        while not data[end : end + 1].isspace():
            end += 1
        words.append(data[at:end])
        at = end + 1
    return numpy.frombuffer(data, dtype=numpy.uint8, offset=at).reshape(int(words[2]), int(words[1]))


def run(pixels, middle):
    """How many dark pixels there are around one."""
    if pixels[middle] > 127:
        return 0
    first = last = middle
    while first > 0 and pixels[first - 1] < 128:
        first -= 1
    while last < len(pixels) - 1 and pixels[last + 1] < 128:
        last += 1
    return last - first + 1


def joined_up(edges):
    """Edges in groups that hang together."""
    groups = []
    for edge in edges:
        touches = lambda group: any(numpy.abs(end - other).sum(axis=-1).min() < 1e-3 for end in edge for other in group)
        groups = [group for group in groups if not touches(group)] + [sum(filter(touches, groups), []) + [edge]]
    return groups
