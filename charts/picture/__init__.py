"""The piece drawn as it will look: every stitch as a path of yarn in space, lit and laid on a ground."""
