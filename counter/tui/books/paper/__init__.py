"""An invoice on the screen."""
