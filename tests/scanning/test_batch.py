"""A folder's worth at once."""

from collections.abc import Iterator

from PIL import Image

from bookmaker.scanning.batch import take_all
from bookmaker.scanning.find import Refused
from bookmaker.scanning.sources import Source, open_picture
from bookmaker.scanning.take import Taken
from tests.scanning.trial import finished, the_class


def test_outcomes_come_in_order_and_a_broken_picture_stops_nothing() -> None:
    known = the_class()
    cut = open_picture(_jpeg(noise_of(300, 200))[:2000])
    sources = [
        Source("a.jpg", 0, finished(1, 100)),
        Source("b.jpg", 0, cut),
        Source("c.txt", 0, None, "not-a-picture"),
        Source("d.jpg", 0, finished(2, 100)),
    ]
    outcomes = list(take_all(sources, known))
    assert [source.file for source, _ in outcomes] == ["a.jpg", "b.jpg", "c.txt", "d.jpg"]
    assert all(source.picture is None for source, _ in outcomes)
    first, broken, text, last = (outcome for _, outcome in outcomes)
    assert isinstance(first, Taken) and first.sheet == 1
    assert isinstance(broken, Refused) and broken.reason == "no-picture"
    assert text == Refused("no-picture", detail="not-a-picture")
    assert isinstance(last, Taken) and last.sheet == 2


def test_no_more_pictures_are_open_than_are_in_work() -> None:
    opened, done = 0, 0

    def sources() -> Iterator[Source]:
        nonlocal opened
        for number in range(30):
            opened += 1
            assert opened - done <= 4
            yield Source(f"{number}.png", 0, Image.new("RGB", (60, 80), "white"))

    for _ in take_all(sources(), the_class(), workers=2):
        done += 1
    assert done == 30


def noise_of(width: int, height: int) -> Image.Image:
    return Image.effect_noise((width, height), 80)


def _jpeg(picture: Image.Image) -> bytes:
    import io

    out = io.BytesIO()
    picture.save(out, "JPEG")
    return out.getvalue()
