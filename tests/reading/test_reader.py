"""Lines as dealers type them ("common practice"), and what each must be read as."""

import pytest

from counter.judge.reading import read_line
from counter.reference.vocabulary import Vocabulary

LINES = {
    "1d blk imp KC sm crown": "denomination=1d colour=black separation=imperforate letters=KC "
    "watermark=small_crown",
    "1d blk imp KC sm crown mx red": "denomination=1d colour=black separation=imperforate letters=KC "
    "watermark=small_crown cancel=maltese_cross cancel_colour=red",
    "2d blu no lines": "denomination=2d colour=blue lines=none",
    "1d red pl 148": "denomination=1d colour=red plate=148",
    "9d green 1884": "denomination=9d colour=green date=1884",
    "1d lilac 16 dots": "denomination=1d colour=lilac dots=16",
    "3d rose emblems": "denomination=3d colour=rose watermark=emblems",
    "1d red imperf tied black mx leeds 12 mar 1842 half ounce": "denomination=1d colour=red "
    "separation=imperforate tied=tied cancel_colour=black cancel=maltese_cross town=Leeds "
    "date=1842-03-12 weight=0.5",
    "penny black red mx on cover, tied, dublin 6 may 1840": "denomination=1d colour=black "
    "cancel_colour=red cancel=maltese_cross attachment=cover tied=tied town=Dublin date=1840-05-06",
    "2d blue not tied numeral 46": "denomination=2d colour=blue tied=not_tied cancel=numeral "
    "cancel_number=46",
    "1d red no 46": "denomination=1d colour=red cancel=numeral cancel_number=46",
    "46 numeral 1d": "cancel_number=46 cancel=numeral denomination=1d",
    "duplex 498 squared circle": "cancel=duplex cancel_number=498 cancel=squared_circle",
    "4 lge margins close at left cut into at foot": "margins=four_large margins=close margins=cut_into",
    "thin at top left pulled perf small tear": "fault=thin fault=pulled_perf fault=tear",
    "backstamped london 14 may 1840": "backstamp_town=London backstamp=1840-05-14",
    "A1042 under £100": "stock_number=A1042 price_max=10000",
    "50-100": "price_min=5000 price_max=10000",
    "<£12.50 over 5": "price_max=1250 price_min=500",
    "franked 2 x 1d to paris 1/2 oz": "franking=2d destination=Paris weight=0.5",
    "leeds to york": "town=Leeds to_town=York",
    "stampless 1838 paid red manuscript 8 120 miles 2 sheets": "stampless=yes date=1838 mark=paid "
    "mark_colour=red charge=8d miles=120 sheets=2",
    "KEVII 2/6 lilac chalky": "reign=edward_7 denomination=2s6d colour=lilac paper=chalky",
    "qeii 4d wilding tudor phosphor": "reign=elizabeth_2 denomination=4d series=wilding "
    "watermark=tudor_crown phosphor=bands",
    "world cup 1966 4d": "subject=set_1966_06_01 denomination=4d",
    "govt parcels 1d lilac": "overprint=GOVT PARCELS denomination=1d colour=lilac",
    "3d on 3d lilac": "denomination=3d overprint=3D colour=lilac",
    "5s rose maltese cross": "denomination=5s colour=rose watermark=maltese_cross",
    "6d mauve embossed vr": "denomination=6d colour=mauve process=embossed watermark=vr",
    "12.5.40": "date=1840-05-12",
    "12.5.53 qeii": "date=1953-05-12 reign=elizabeth_2",
    "12 ap 1845": "date=1845-04-12",
    "sc14 die II alph 2": "watermark=small_crown gauge=14 die=II alphabet=II",
    "14.2±0.3": "gauge=14.2±0.3",
    "perf 15½ x 15": "separation=perforated gauge=15½x15",
    "roul 11½": "separation=rouletted gauge=11½",
    "no gum no cert unused": "gum=no_gum certificate=no gum=unused",
    "reserve plate 15": "plate=R15",
    "numbered cross 5": "cancel=maltese_cross cancel_type=mx_numbered cancel_number=5",
    "scottish numeral 159": "cancel=numeral cancel_type=num_scotland_1844 cancel_number=159",
    "159 scottish numeral": "cancel_number=159 cancel=numeral cancel_type=num_scotland_1844",
    "1d blk pl 11 red mc": "denomination=1d colour=black plate=11 cancel_colour=red "
    "cancel=maltese_cross",
    "1d red mc blk": "denomination=1d colour=red cancel=maltese_cross cancel_colour=black",
    "1d red mc": "denomination=1d colour=red letters=MC",
    "1d black MC red mx": "denomination=1d colour=black letters=MC cancel_colour=red "
    "cancel=maltese_cross",
    "1dred imperf": "denomination=1d colour=red separation=imperforate",
    "½dblu": "denomination=½d colour=blue",
    "1d red numeral 1 june 1850": "denomination=1d colour=red cancel=numeral date=1850-06-01",
    "1d red numeral 46 june 1850": "denomination=1d colour=red cancel=numeral cancel_number=46 "
    "date=1850-06",
    "1d red unpaid 2 march 1845": "denomination=1d colour=red mark=unpaid date=1845-03-02",
    "paid 1 may 1840": "mark=paid date=1840-05-01",
    "paid 1 london": "mark=paid_1 town=London",
    "1d black MY 6 40": "denomination=1d colour=black date=1840-05-06",
    "stampless 5.12.39": "stampless=yes date=1839-12-05",
    "1d black pl 2 state": "denomination=1d colour=black plate=2",
    "1s green embossed WW": "denomination=1s colour=green process=embossed",
    "½d green kevii ppc": "denomination=½d colour=green reign=edward_7 attachment=stationery "
    "service=postcard",
    "res pl 16": "plate=R16",
    "spoon 25": "cancel=duplex cancel_type=duplex_spoon cancel_number=25",
    "75 duplex": "cancel_number=75 cancel=duplex",
    "75 in duplex": "cancel_number=75 cancel=duplex",
    "5 in mx": "cancel_number=5 cancel=maltese_cross",
    "3 x 1d": "quantity=3 franking=3d denomination=1d",
    "1d red 2 x 1d + 4d": "denomination=1d colour=red franking=6d",
    "pair 1d red 2d franking": "multiple=pair denomination=1d colour=red franking=2d",
    "1d red franking 2d": "denomination=1d colour=red franking=2d",
    "4d franking 20 g": "franking=4d weight=20g",
    "20g": "weight=20g",
    "60 grams": "weight=60g",
    "tuppenny blue pl 3 4m nice mx": "denomination=2d colour=blue plate=3 margins=4 "
    "cancel=maltese_cross",
    "2d bl pl 3 KC": "denomination=2d colour=blue plate=3 letters=KC",
    "1d red bl": "denomination=1d colour=red letters=BL",
    "£1 br lilac anchor": "denomination=£1 colour=brown-lilac watermark=small_anchor|large_anchor",
    "1d red br stars": "denomination=1d colour=red-brown corners=stars",
    "2d blue wh lines": "denomination=2d colour=blue lines=present",
    "1d red blk plate pl 8": "denomination=1d colour=red series=black_plate plate=8",
    "1d black plate 8": "denomination=1d colour=black plate=8",
    "6d embossed cut square": "denomination=6d process=embossed condition=cut_square",
    "1d blk 3½ margins": "denomination=1d colour=black margins=3",
    "1d black pl VI": "denomination=1d colour=black plate=6",
    "plate six 1d black": "plate=6 denomination=1d colour=black",
    "1d red T/L": "denomination=1d colour=red letters=TL",
    "vert pair 1d red KC LC imperf": "multiple=pair orientation=vertical denomination=1d colour=red "
    "letters=KC letters=LC separation=imperforate",
    "1d red KC LC p14": "denomination=1d colour=red letters=KC watermark=large_crown_1|large_crown_2 "
    "separation=perforated gauge=14",
    "1d red se corner": "denomination=1d colour=red condition=marginal",
    "6d lilac A25 malta": "denomination=6d colour=lilac cancel_number=A25 destination=Malta",
    "stock no C51": "stock_number=C51",
    "C51": "stock_number=C51",
    "1829 el bristol to leeds 1s 2d": "date=1829 attachment=entire town=Bristol to_town=Leeds "
    "charge=1s2d",
    "EL 1838 paid 9d boxed mileage": "attachment=entire date=1838 mark=paid charge=9d mark=mileage",
    "1840 jan 11 ms 1": "date=1840-01-11 charge=1d",
    "1s3d red cross 1963": "denomination=1s3d subject=set_1963_08_15",
    "1d black red cross 1840": "denomination=1d colour=black cancel_colour=red cancel=maltese_cross "
    "date=1840",
    "4d world cup 66": "denomination=4d subject=World Cup date=1966",
    "seahorse 2/6 DLR": "series=seahorse denomination=2s6d printer=De La Rue",
    "5s seahorse re-engraved": "denomination=5s series=seahorse series=reengraved",
    "castle £1 bw no wmk": "series=castle denomination=£1 printer=Bradbury Wilkinson "
    "watermark=no_watermark",
    "3d wilding edward crown": "denomination=3d series=wilding watermark=st_edwards_crown",
    "1d worn plate black pl 1a": "denomination=1d condition=worn_plate colour=black plate=1a",
    "1d red ivory head": "denomination=1d colour=red condition=ivory_head",
    "3d rose secret dots": "denomination=3d colour=rose tell=secret_dots",
    "1d blk intense black": "denomination=1d colour=black shade=intense colour=black",
    "machin 1p phos omitted": "series=machin denomination=1p phosphor=none",
    "4 jly 1851 12 in diamond": "date=1851-07-04 cancel_number=12 cancel=numeral "
    "cancel_type=num_london_inland_1844",
    "6d buff plate 12 pale": "denomination=6d colour=buff plate=12 shade=pale",
}


def told(line: str, vocabulary: Vocabulary) -> list[str]:
    return [f"{seen.kind}={seen.value}" for seen in read_line(line, vocabulary).observations]


@pytest.mark.parametrize("line", LINES)
def test_a_line_is_read_whole(line: str, vocabulary: Vocabulary) -> None:
    reading = read_line(line, vocabulary)
    assert " ".join(told(line, vocabulary)) == LINES[line]
    assert not reading.unread


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        *[(each, "½d") for each in ("½d", "1/2d", "1⁄2d", "½", "1/2", "halfpenny", "1/2 d")],
        *[(each, "2½d") for each in ("2½d", "2 1/2d", "2.5d", "21/2d", "2½", "2 1/2")],
        *[(each, "1s") for each in ("1s", "1/-", "one shilling", "1 shilling")],
        *[(each, "2s6d") for each in ("2/6", "2s6d", "2s 6d", "half crown", "2s6")],
        *[(each, "10s") for each in ("10/-", "10s", "ten shillings")],
        ("1/6", "1s6d"), ("1/3", "1s3d"), ("£1", "£1"), ("£ 5", "£5"),
        ("½p", "½p"), ("22p", "22p"), ("7p", "7p"), ("12½p", "12½p"), ("1 d", "1d"),
    ],
)  # fmt: skip
def test_face_values(typed: str, value: str, vocabulary: Vocabulary) -> None:
    assert told(typed, vocabulary) == [f"denomination={value}"]


@pytest.mark.parametrize(
    "typed", ["perf 14", "p14", "p 14", "perf14", "p.14", "perf. 14", "perforated 14"]
)
def test_gauges(typed: str, vocabulary: Vocabulary) -> None:
    assert told(typed, vocabulary) == ["separation=perforated", "gauge=14"]


@pytest.mark.parametrize("typed", ["pl 148", "pl148", "pl.148", "plate 148", "plate no 148", "PL. 148"])
def test_plates(typed: str, vocabulary: Vocabulary) -> None:
    assert told(typed, vocabulary) == ["plate=148"]


@pytest.mark.parametrize(
    ("typed", "letters"),
    [
        *[(each, ["KC"]) for each in ("KC", "kc", "K-C", "K C", "k c", "K.C", "lettered K C")],
        *[(each, ["CKKC"]) for each in ("CK-KC", "ck/kc", "CK KC", "CKKC", "letters ck kc")],
        ("KC KD", ["KC", "KD"]), ("KC/KD", ["KC", "KD"]), ("AB, BA", ["AB", "BA"]),
        ("KC-KF", ["KC", "KD", "KE", "KF"]), ("OP-PC", ["OPPC"]), ("LH-HL", ["LHHL"]),
        ("lettered ME", ["ME"]), ("UA", ["UA"]),
        ("KC-KE EK", ["KC", "KD", "KE", "EK"]), ("KC/ KD/ KD", ["KC", "KD", "KD"]),  # fuzzed
    ],
)  # fmt: skip
def test_letters(typed: str, letters: list[str], vocabulary: Vocabulary) -> None:
    reading = read_line(typed, vocabulary)
    assert [seen.value for seen in reading.all("letters")] == letters
    assert not reading.unread


@pytest.mark.parametrize("typed", ["no", "on", "in", "og", "mx", "is it"])
def test_small_words_are_no_letters(typed: str, vocabulary: Vocabulary) -> None:
    assert not read_line(typed, vocabulary).all("letters")


def test_letters_tell_their_place(vocabulary: Vocabulary) -> None:
    (seen,) = read_line("KC", vocabulary).observations
    assert seen.words == "letters K C: row 11, column 3"


@pytest.mark.parametrize(
    ("line", "colour", "cancel"),
    [
        ("1d red mx", "red", ""),
        ("1d red mx black", "red", "black"),
        ("1d black red mx", "black", "red"),
        ("red mx 1d black", "black", "red"),
        ("1d imperf red mx", "", "red"),
        ("mx in blue 1d red", "red", "blue"),
        ("penny red black maltese cross", "red", "black"),
        ("1d rose red, vermilion mx", "rose-red", "red"),
    ],
)
def test_whose_colour(line: str, colour: str, cancel: str, vocabulary: Vocabulary) -> None:
    reading = read_line(line, vocabulary)
    assert (reading.first("colour"), reading.first("cancel_colour")) == (colour, cancel)


@pytest.mark.parametrize(
    ("line", "multiple", "colour"),
    [
        ("1d blk", "", "black"),
        ("1d red blk", "block_4", "red"),
        ("1d blk blk of 6", "block_6", "black"),
        ("blk4 2d blue", "block_4", "blue"),
        ("1d blk 4 margins", "", "black"),
        ("hor pair 1d red", "pair", "red"),
        ("strip of three 2d blue", "strip_3", "blue"),
        ("irregular block of 5 1d black", "irregular_5", "black"),
    ],
)
def test_black_and_block(line: str, multiple: str, colour: str, vocabulary: Vocabulary) -> None:
    reading = read_line(line, vocabulary)
    assert (reading.first("multiple"), reading.first("colour")) == (multiple, colour)


@pytest.mark.parametrize(
    ("typed", "observation"),
    [
        ("vermillon", "colour=vermilion"),
        ("imprf", "separation=imperforate"),
        ("small crwon", "watermark=small_crown"),
        ("maltse cross", "cancel=maltese_cross"),
        ("squared cirle", "cancel=squared_circle"),
    ],
)
def test_slips_are_mended_and_marked(typed: str, observation: str, vocabulary: Vocabulary) -> None:
    reading = read_line(typed, vocabulary)
    assert told(typed, vocabulary) == [observation]
    assert reading.observations[0].slip


@pytest.mark.parametrize(
    ("line", "unread"),
    [
        ("1d red wibble", ["wibble"]),
        ("32 may 1840", ["32 may 1840"]),
        ("before 1850", ["before 1850"]),
        ("12 may", ["12 may"]),
        ("tuesday market", ["tuesday", "market"]),
        ("numbered cross 13", ["13"]),  # crosses were numbered 1 to 12
        ("1d black 4 mx", ["4"]),  # four of them, or the number in the cross?
    ],
)
def test_what_is_not_understood_is_shown(line: str, unread: list[str], vocabulary: Vocabulary) -> None:
    assert [each.text for each in read_line(line, vocabulary).unread] == unread


def test_an_unlisted_town_needs_a_cue(vocabulary: Vocabulary) -> None:
    assert read_line("mx black much wenlow 3 feb 1843", vocabulary).first("town") == "Much Wenlow"
    assert read_line("1d lilac squared circle wenlow", vocabulary).first("town") == "Wenlow"
    assert not read_line("1d red wenlow", vocabulary).first("town")
    assert not read_line("1d black mx red wenlow", vocabulary).first("town")
