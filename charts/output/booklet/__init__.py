"""The booklet: cover, materials, words, charts, folding, paper mock-up and care as one printed document."""
