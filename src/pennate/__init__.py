"""Plans, loads, logs and judges strength training for one self-coached lifter."""

__version__ = "0.1.0"
