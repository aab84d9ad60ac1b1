"""From evidence, a scheme and a day to who may do what. Pure, on plain values."""
