"""What is said between work and is none of it: clauses judged by how they are built, not by a list of what people say."""
