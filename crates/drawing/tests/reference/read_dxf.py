"""Reads a DXF written by this room with ezdxf and prints what its audit finds. Run: python read_dxf.py FILE"""
import sys
from collections import Counter
import ezdxf

document = ezdxf.readfile(sys.argv[1])
audit = document.audit()
print(f"ezdxf {ezdxf.__version__}: release {document.dxfversion}, errors {len(audit.errors)}, repairs {len(audit.fixes)}")
for kind, count in sorted(Counter(e.dxftype() for e in document.modelspace()).items()):
    print(kind, count)
