"""How events and lanes are called in a sentence."""

from core.board.scene import Scene
from core.saying.model import Named

_LANE_WORDS = {"picture": "pictures", "voice": "voice"}
_MOMENT = "the moment "
_BODIES = {"moon": "the Moon", "earth": "Earth"}


def named(scene: Scene, event_id: str) -> Named:
    """An event as the presenter says it: by the plan's words for it, else by its bare name."""
    event = scene.event(event_id)
    words = event.say or scene.roll.small(event.name)
    return Named(event_id, words, event.name, described=bool(event.say))


def short_name(scene: Scene, event_id: str) -> str:
    """Its name for a list in a line: 'insertion burn (ignition)'."""
    name = scene.roll.small(scene.event(event_id).name) if event_id in scene.known else event_id
    first, comma, rest = name.partition(", ")
    return f"{first} ({rest})" if comma else name


def list_words(scene: Scene, event_id: str) -> str:
    """The event among others in a spoken list: a bare name without what follows its comma.

    With it, where another event has the same first words.
    """
    it = named(scene, event_id)
    first = it.name.partition(", ")[0]
    alike = [e for e in scene.roll.events.values() if e.name.partition(", ")[0] == first]
    return it.words if it.described or len(alike) > 1 else scene.roll.small(first)


def lane_words(scene: Scene, lane_id: str) -> str:
    """'pictures', 'voice', or the lane by its name."""
    names = (lane.name for lane in scene.plan.lanes if lane.id == lane_id)
    return _LANE_WORDS.get(lane_id) or scene.roll.small(next(names, lane_id).lower())


def becomes(scene: Scene, event_id: str) -> str:
    """What is so at that moment: 'Petrel slips behind the Moon'; empty where the plan says not."""
    say = scene.event(event_id).say if event_id in scene.known else ""
    return say.removeprefix(_MOMENT) if say.startswith(_MOMENT) else ""


def body(scene: Scene) -> str:
    """The body the flight is about, as one says it: 'Mars'; empty where no course names one."""
    for course in scene.plan.courses:
        for key, value in course.settings:
            if key == "about" and isinstance(value, str):
                return _BODIES.get(value, value.capitalize())
    return ""
