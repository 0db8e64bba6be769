"""Writes factors.csv: conversion factors as scipy.constants has them, to hold our own against.

Run: python3 factors.py > ../data/factors.csv
"""
import scipy
from scipy import constants as c

print(f"# scipy.constants, scipy {scipy.__version__}; written by tests/reference/factors.py. SI values.")
print("name,value")
for name in ["inch", "foot", "yard", "pound", "oz", "long_ton", "short_ton", "zero_Celsius"]:
    print(f"{name},{getattr(c, name)!r}")
for fahrenheit in [-40.0, 0.0, 32.0, 68.0, 98.6, 212.0]:
    print(f"fahrenheit {fahrenheit},{float(c.convert_temperature(fahrenheit, 'Fahrenheit', 'Celsius'))!r}")
