"""Running baths: a countdown legible at arm's length that does not stop until it is rinsed."""
