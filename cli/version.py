"""Which hookfold this is. The package takes its version from here, so that it is told without being looked up."""

VERSION = "0.1.0"
