"""Pure answers: the reference and what was seen go in, a judgement comes out."""
