NOT_CHARTS: dict = {}
