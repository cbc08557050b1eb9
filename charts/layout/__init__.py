"""Where each thing goes: rows, rounds, assembly, template, sheet."""
