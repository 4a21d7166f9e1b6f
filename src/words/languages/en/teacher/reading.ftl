# What is wrong with a file, and what would be right.

