"""CPU seconds that SciPy's overlap-add takes to fold a film with a kernel, in 32-bit floats."""
import sys
import time

import numpy
from scipy.signal import oaconvolve

raw, width, height, kernel, side = sys.argv[1], int(sys.argv[2]), int(sys.argv[3]), sys.argv[4], int(sys.argv[5])
black = numpy.fromfile(raw, dtype=numpy.uint8).reshape(height, width)
film = numpy.where(black == 1, numpy.float32(10**-3.5), numpy.float32(1))
weights = numpy.fromfile(kernel, dtype=numpy.float32).reshape(side, side)
start = time.process_time()
leak = oaconvolve(film, weights, mode="same")
print(time.process_time() - start)
assert leak.dtype == numpy.float32 and 0 < leak.mean() < 1
