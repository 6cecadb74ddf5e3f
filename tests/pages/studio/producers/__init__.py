"""One small file for each way of making a page. Every `write` takes a Scene and the path of the file to make."""


class Missing(Exception):
    """The producer's package is not installed; its pages are left out."""
