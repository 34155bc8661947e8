"""Line drawings from strangers: their geometry is read by a strict grammar, and nothing else of them is kept.

A contributor's SVG is never passed on. `read.py` takes bytes and gives a `Drawing`: lines and curves in whole
numbers, each with one of our own pens. `write.py` makes path data and files of that. What is a picture's look
in the file (colours, widths, effects) decides at most which of our pens a line gets (`pens.py`).
"""
