"""The stitch chart: which rows are drawn, on which pages, with key, numbers and sentences."""
