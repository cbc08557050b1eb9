"""The piece on its object: how it sits there, the things that go with it, and the view of both."""
