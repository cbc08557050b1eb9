"""Printed pages and what stands on them beside charts: marks, panels, measuring, specimen, a mistake shown."""
