"""Words, pages and pictures: written pattern, share images, PNG and PDF."""
