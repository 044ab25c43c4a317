"""CCSDS OMM in keywords."""

from core.plan.orbitdata.kvn import keyed, lines_of, start_of
from core.plan.orbitdata.mean import mean_elements
from core.plan.orbitdata.messages import check_version
from core.plan.orbitdata.model import MeanElements
from core.plan.orbitdata.omm_keys import VERSION, keep_key
from core.plan.orbitdata.telling import Telling, Word, quoted


def read_kvn(text: str, telling: Telling) -> MeanElements:
    """The elements in the text of an OMM. Raises PlanProblems with everything wrong with it."""
    words: dict[str, Word] = {}
    last = (1, 1)
    for number, line in lines_of(text):
        last = start_of(number, line)
        pair = keyed(number, line)
        if pair is None:
            what = f"{quoted(line.strip())} is no key with its value"
            telling.problem(last, what, "Write KEY = value")
            continue
        key, word = pair
        if key == VERSION:
            if key in words:
                what = "this file holds several OMM: which one?"
                raise telling.stopped(last, what, "Keep one of them in the file")
            check_version(word.text, "OMM", telling, word.spot)
        keep_key(telling, words, key, word)
    if VERSION not in words:
        telling.problem((1, 1), f"{VERSION} is missing", f"An OMM begins with {VERSION} = 2.0")
    return mean_elements(words, last, telling, plain=False)
