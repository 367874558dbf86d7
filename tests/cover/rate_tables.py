"""The inland tables as published, one row a period: first day, last day, {weight: pence}, source.

Weights are the heaviest of each step and the first beyond it. None: not established there.
"""

from fractions import Fraction

F = Fraction
H = F(1, 2)
MORE = F(1, 1000)  # an ounce is a large thing: a thousandth over a step is over the step

Row = tuple[str, str, dict[Fraction | int, Fraction | int | None], str]

LETTERS_OZ: list[Row] = [
    # Treasury Warrant of 22 November 1839
    ("1839-12-05", "1840-01-09", {H: 4, H + MORE: 8, 1: 8, 1 + MORE: 16, 2: 16, 16: 128}, "gbps_1839"),
    # Scottish directory of the 1840s; Southampton directory about 1850: n-1 to n ounces = 2n pence
    (
        "1840-01-10",
        "1865-03-31",
        {
            MORE: 1,
            H: 1,
            H + MORE: 2,
            1: 2,
            1 + MORE: 4,
            2: 4,
            2 + MORE: 6,
            3: 6,
            16: 32,
            16 + MORE: None,
        },
        "nls_1840s",
    ),
    # West London Directory for 1867: a penny a half ounce
    ("1865-04-01", "1871-10-04", {H: 1, H + MORE: 2, 1: 2, 1 + MORE: 3, 2: 4, 10: 20}, "wldir1867"),
    # Scottish directories of the 1870s: table to 12 oz, a penny an ounce above from the first
    (
        "1871-10-05",
        "1885-06-30",
        {
            1: 1,
            1 + MORE: 1 + H,
            2: 1 + H,
            4: 2,
            6: 2 + H,
            8: 3,
            10: 3 + H,
            12: 4,
            12 + MORE: 13,
            13: 13,
            16: 16,
        },
        "nls_1870s",
    ),
    # Scottish directories 1885-1897: a halfpenny per 2 oz above 2 oz; 12 oz = 4d
    ("1885-07-01", "1897-06-21", {1: 1, 2: 1 + H, 2 + MORE: 2, 4: 2, 12: 4, 14: 4 + H}, "nls_1885"),
    # The Empire and the Century (1905): 4 oz for 1d, a halfpenny per 2 oz
    ("1897-06-22", "1915-10-31", {4: 1, 4 + MORE: 1 + H, 6: 1 + H, 8: 2}, "empirecentury"),
    ("1915-11-01", "1918-06-02", {1: 1, 1 + MORE: None}, "h1915dec"),
    ("1918-06-03", "1920-05-31", {1: 1 + H, 1 + MORE: None}, "l1918may"),
    ("1920-06-01", "1922-05-28", {3: 2, 3 + MORE: None}, "spectator1920"),
    ("1922-05-29", "1923-05-13", {1: 1 + H, 1 + MORE: 2, 3: 2, 3 + MORE: None}, "h1922may"),
    ("1923-05-14", "1940-04-30", {2: 1 + H, 2 + MORE: 2, 4: 2, 6: 2 + H}, "h1940apr"),
    ("1940-05-01", "1953-12-31", {2: 2 + H, 2 + MORE: 3, 4: 3, 6: 3 + H}, "h1940apr"),
    ("1954-01-01", "1957-09-30", {2: 2 + H, 2 + MORE: None}, "h1957jul"),
    (
        "1957-10-01",
        "1965-05-16",
        {1: 3, 1 + MORE: 4 + H, 2: 4 + H, 2 + MORE: 6, 4: 6, 4 + MORE: None},
        "h1957jul",
    ),
    ("1965-05-17", "1968-09-15", {2: 4, 4: 6, 6: 8, 8: 10, 8 + MORE: None}, "h1965mar"),
]
#: A figure that only memory or one list known to err gives is told, but not as established: None.
FIRST_CLASS: list[Row] = [
    ("1968-09-16", "1971-02-14", {4: 5, 4 + MORE: 9, 6: 9, 6 + MORE: None}, "h1968jul"),
    ("1971-02-15", "1973-09-09", {4: 3, 4 + MORE: None}, "h1971feb"),
    ("1973-09-10", "1974-06-23", {1: 3 + H, 1 + MORE: None}, "h1978jun"),
    ("1974-06-24", "1975-03-16", {2: None, 2 + MORE: None}, "webrates"),
    ("1975-03-17", "1975-09-28", {2: 7, 2 + MORE: None}, "webrates"),
]
FIRST_CLASS_GRAMS: list[Row] = [
    ("1975-09-29", "1977-06-12", {60: 8 + H, 61: None}, "webrates"),
    ("1977-06-13", "1979-08-19", {60: 9, 61: None}, "h1978jun"),
    ("1979-08-20", "1980-02-03", {60: None, 61: None}, "memory"),
    ("1980-02-04", "1981-01-25", {60: 12, 61: None}, "blog_1981"),
]
SECOND_CLASS: list[Row] = [
    ("1968-09-16", "1971-02-14", {4: 4, 6: 6, 8: 8, 8 + MORE: None}, "h1968jul"),
    ("1971-02-15", "1973-09-09", {4: 2 + H, 4 + MORE: None}, "h1971feb"),
    ("1973-09-10", "1974-06-23", {2: None, 2 + MORE: None}, "webrates"),
    ("1974-06-24", "1975-03-16", {2: None, 2 + MORE: None}, "webrates"),
    ("1975-03-17", "1975-09-28", {2: 5 + H, 2 + MORE: None}, "webrates"),
]
SECOND_CLASS_GRAMS: list[Row] = [
    ("1975-09-29", "1977-06-12", {60: None, 61: None}, "webrates"),
    ("1977-06-13", "1979-08-19", {60: None, 61: None}, "webrates"),
    ("1979-08-20", "1980-02-03", {60: None, 61: None}, "memory"),
    ("1980-02-04", "1981-01-25", {60: 10, 61: None}, "blog_1981"),
]
CARDS: list[Row] = [
    ("1870-10-01", "1918-06-02", {1: H}, "nls_1885"),
    ("1918-06-03", "1921-06-12", {1: 1}, "l1918may"),
    ("1921-06-13", "1922-05-28", {1: 1 + H}, "h1921may"),
    ("1922-05-29", "1940-04-30", {1: 1}, "edinphoto"),
    ("1940-05-01", "1957-09-30", {1: 2}, "h1940apr"),
    ("1957-10-01", "1965-05-16", {1: None}, "webrates"),
    ("1965-05-17", "1968-09-15", {1: 3}, "h1968jul"),
]
PRINTED: list[Row] = [
    ("1848-02-11", "1855-06-10", {16: 6, 16 + MORE: 12}, "smith1917"),
    ("1855-06-11", "1865-12-31", {4: 1, 8: 2, 8 + MORE: 4, 16: 4, 24: 6, 32: 8, 40: 10}, "smith1917"),
    ("1866-01-01", "1866-12-31", {4: 1, 8: 2, 8 + MORE: None}, "smith1917"),
    ("1867-01-01", "1870-09-30", {4: 1, 4 + MORE: 2, 12: 3}, "smith1917"),
    ("1870-10-01", "1897-06-21", {2: H, 2 + MORE: 1, 4: 1, 80: 20, 80 + MORE: None}, "jubilee_study"),
    ("1897-06-22", "1918-06-02", {2: H, 2 + MORE: None}, "jubilee_study"),
    ("1918-06-03", "1921-06-12", {1: H, 1 + MORE: None}, "h1921may"),
    ("1921-06-13", "1922-05-28", {1: 1, 1 + MORE: None}, "h1921may"),
    ("1922-05-29", "1940-04-30", {1: H, 1 + MORE: None}, "h1940apr"),
    ("1940-05-01", "1951-05-31", {2: 1, 2 + MORE: None}, "h1940apr"),
    ("1951-06-01", "1956-05-31", {2: 1 + H, 2 + MORE: None}, "h1956apr"),
    ("1956-06-01", "1961-09-30", {2: 2, 2 + MORE: None}, "h1956apr"),
    ("1961-10-01", "1965-05-16", {2: 2 + H, 2 + MORE: None}, "gbps_reg6169"),
    ("1965-05-17", "1968-09-15", {2: 3, 2 + MORE: None}, "h1965mar"),
]
PARCELS: list[Row] = [  # Encyclopaedia Britannica, 11th edition: 1, 3, 5 and 7 lb
    (
        "1883-08-01",
        "1886-04-30",
        {16: 3, 16 + MORE: 6, 48: 6, 80: 9, 112: 12, 112 + MORE: None},
        "eb1911",
    ),
]

#: The 1812 scale, one sheet (Smith 1917, Appendix A): miles and pence.
MILES_1812 = [
    *[(15, 4), (20, 5), (30, 6), (50, 7), (80, 8), (120, 9), (170, 10), (230, 11), (300, 12)],
    *[(400, 13), (500, 14), (600, 15), (700, 16), (900, 17)],
]

#: Registration fees: first day, last day, pence (None: not established), source.
REGISTRATION: list[tuple[str, str, int | None, str]] = [
    ("1841-01-06", "1848-02-29", 12, "tna_post26"),
    ("1848-03-01", "1862-07-31", 6, "hill1880_2"),
    ("1862-08-01", "1877-12-31", 4, "wldir1867"),
    ("1878-01-01", "1920-05-31", 2, "nls_1885"),
    ("1920-06-01", "1949-07-31", None, "memory"),
    ("1949-08-01", "1966-10-02", None, "memory"),
    ("1966-10-03", "1971-02-14", 36, "coverblog"),
]

#: Overseas letters: place, first day, last day, {ounces: pence}, source.
OVERSEAS: list[tuple[str, str, str, dict[Fraction | int, Fraction | int | None], str]] = [
    ("France", "1843-06-01", "1854-12-31", {F(1, 4): 10, H: 15, H + MORE: None}, "soton_1850"),
    ("France", "1855-01-01", "1870-06-30", {F(1, 4): 4, H: 8, 1: 16}, "somersetph"),
    ("France", "1870-07-01", "1875-12-31", {F(1, 3): 3, F(2, 3): 6, H: 6}, "latefee_l1"),
    ("France", "1876-01-01", "1907-09-30", {H: 2 + H, 1: 5}, "stationery_soc"),
    # a 2 oz letter of January 1863 paid 4s (two rates an ounce)
    ("United States", "1849-02-15", "1867-12-31", {H: 12, 1: 24, 2: 48, 2 + MORE: 72}, "phs_usuk"),
    ("United States", "1868-01-01", "1869-12-31", {H: 6, 1: 12}, "us_statutes_15"),
    ("United States", "1870-01-01", "1875-06-30", {H: 3, 1: 6}, "smith1917"),
    ("United States", "1875-07-01", "1907-09-30", {H: 2 + H, 1: 5}, "stationery_soc"),
    ("United States", "1907-10-01", "1908-09-30", {1: 2 + H, 2: 4}, "nls_1910"),
    ("United States", "1908-10-01", "1918-06-02", {1: 1, 2: 2}, "nzherald1908"),
    ("United States", "1918-06-03", "1920-05-31", {1: 1 + H, 2: None}, "l1918may"),
    ("United States", "1920-06-01", "1922-05-28", {1: 2, 2: None}, "h1922may"),
    ("United States", "1922-05-29", "1940-04-30", {1: 1 + H, 2: None}, "h1922may"),
    ("Germany", "1875-07-01", "1907-09-30", {H: 2 + H, 1: 5}, "stationery_soc"),
    ("Germany", "1907-10-01", "1921-06-12", {1: 2 + H, 2: 4}, "nls_1910"),
    ("Germany", "1921-06-13", "1922-05-28", {1: 3, 2: None}, "h1921may"),
    ("Germany", "1922-05-29", "1923-05-13", {1: None}, "memory"),
    ("Germany", "1923-05-14", "1940-04-30", {1: 2 + H}, "h1940apr"),
    ("Germany", "1940-05-01", "1950-09-30", {1: 3, 2: 4 + H}, "h1940apr"),
    ("Japan", "1891-01-01", "1907-09-30", {H: 2 + H}, "stationery_soc"),
    ("India", "1891-01-01", "1898-12-24", {H: 2 + H}, "stationery_soc"),
    ("India", "1898-12-25", "1907-09-30", {H: 1, 1: 2}, "jubilee_study"),
    ("India", "1907-10-01", "1918-06-02", {1: 1, 2: 2}, "nls_1910"),
    ("India", "1918-06-03", "1920-05-31", {1: 1 + H}, "l1918may"),
    ("India", "1920-06-01", "1922-05-28", {1: 2}, "h1922may"),
    ("India", "1922-05-29", "1940-04-30", {1: 1 + H}, "h1922may"),
    ("Australia", "1889-01-01", "1890-12-31", {H: 4, 1: 8}, "eb1911"),
    ("New Zealand", "1891-01-01", "1900-12-31", {H: 2 + H}, "stationery_soc"),
    ("New Zealand", "1901-01-01", "1907-09-30", {H: 1}, "jubilee_study"),
    ("Australia", "1898-12-25", "1905-03-31", {H: 2 + H}, "stationery_soc"),
    ("Australia", "1905-04-01", "1907-09-30", {H: 1}, "jubilee_study"),
]
