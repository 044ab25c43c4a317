"""`signal`: contacts, gaps, hand-overs and totals, in words and as JSON."""

from tests.app.commands.plans import HEAD, LOST_AND_FOUND, Run

_PLAIN = {"observed": False, "outcome": None, "give_s": 0.0}


def test_json_gives_edges_gaps_contacts_hand_overs_and_totals(run: Run) -> None:
    told = run("signal", LOST_AND_FOUND, "--json").told
    assert list(told) == ["edges", "gaps", "contacts", "hand_overs", "totals", "clash", "notes"]
    voice = [edge for edge in told["edges"] if edge["lane"] == "voice"]
    assert [(edge["change"], edge["time"], edge["ground"]) for edge in voice] == [
        ("back", "2031-05-14T09:30:00.000Z", "tarn"),
        ("lost", "2031-05-14T09:50:00.000Z", "tarn"),
        ("back", "2031-05-14T10:20:00.000Z", "tarn"),
        ("lost", "2031-05-14T11:30:00.000Z", "kestrel"),
    ]
    for edge in voice:
        assert edge["course"] == "turn"
        assert {key: edge[key] for key in _PLAIN} == _PLAIN
    assert {
        "lane": "voice",
        "from": "2031-05-14T09:50:00.000Z",
        "to": "2031-05-14T10:20:00.000Z",
        "cause": "behind the Moon",
        "outcome": None,
    } in told["gaps"]
    assert {
        "lane": "voice",
        "ground": "kestrel",
        "from": "2031-05-14T10:50:00.000Z",
        "to": "2031-05-14T11:30:00.000Z",
        "course": "turn",
        "outcome": None,
    } in told["contacts"]
    all_of_it = {"from": "2031-05-14T09:30:00.000Z", "to": "2031-05-14T11:30:00.000Z"}
    assert told["totals"] == {
        "voice": [
            {
                "outcome": None,
                "gaps": 1,
                "longest_s": 1800.0,
                "out_s": 1800.0,
                "unknown_s": 0.0,
                **all_of_it,
            }
        ],
        "picture": [
            {
                "outcome": None,
                "gaps": 2,
                "longest_s": 3060.0,
                "out_s": 6060.0,
                "unknown_s": 0.0,
                **all_of_it,
            }
        ],
    }
    assert (told["clash"], told["notes"]) == (None, [])


def test_the_table_is_in_order_of_time_and_ends_with_the_totals(run: Run) -> None:
    answer = run("signal", LOST_AND_FOUND)
    assert answer.status == 0
    lines = [" ".join(line.split()) for line in answer.out.splitlines()]
    assert lines == [
        "Clock times: UTC",
        "FROM TO LENGTH LANE WHAT IF",
        "(before) 9:30:00 a.m. voice no signal: behind the Moon",
        "(before) 10:21:00 a.m. picture no signal: behind the Moon",
        "9:30:00 a.m. 9:50:00 a.m. 20 min 00 s voice through Tarn Hill",
        "9:50:00 a.m. 10:20:00 a.m. 30 min 00 s voice no signal: behind the Moon",
        "10:20:00 a.m. 10:50:00 a.m. 30 min 00 s voice through Tarn Hill",
        "10:21:00 a.m. 10:40:00 a.m. 19 min 00 s picture through Tarn Hill",
        "10:40:00 a.m. (after) picture no signal: behind the Moon",
        "10:50:00 a.m. 11:30:00 a.m. 40 min 00 s voice through Kestrel Bay",
        "10:50:00 a.m. voice hand-over to Kestrel Bay",
        "11:30:00 a.m. (after) voice no signal: behind the Moon",
        "From 9:30:00 a.m. to 11:30:00 a.m.:",
        "voice: 1 gap, 30 min",
        "picture: 2 gaps, 1 h 41 min in all, the longest 51 min",
    ]


def test_a_part_of_it_may_be_asked_for(run: Run) -> None:
    times = ("--from", "2031-05-14T10:00:00", "--to", "2031-05-14T10:30:00Z")
    told = run("signal", LOST_AND_FOUND, "--lane", "voice", *times, "--json").told
    assert [edge["time"] for edge in told["edges"]] == ["2031-05-14T10:20:00.000Z"]
    assert [gap["from"] for gap in told["gaps"]] == ["2031-05-14T09:50:00.000Z"]
    assert [each["ground"] for each in told["contacts"]] == ["tarn"]
    assert told["hand_overs"] == []
    half_an_hour = {"from": "2031-05-14T10:00:00.000Z", "to": "2031-05-14T10:30:00.000Z"}
    out = {"outcome": None, "gaps": 1, "longest_s": 1200.0, "out_s": 1200.0, "unknown_s": 0.0}
    assert told["totals"] == {"voice": [half_an_hour | out]}


def test_entries_move_it(run: Run) -> None:
    told = run("signal", LOST_AND_FOUND, "ignition +2m", "--lane", "voice", "--json").told
    assert told["edges"][2]["time"] == "2031-05-14T10:22:00.000Z"
    now = "2031-05-14T10:21:00"
    told = run(
        "signal", LOST_AND_FOUND, "voice back now", "--lane", "voice", "--json", now=now
    ).told
    edge = told["edges"][2]
    assert (edge["time"], edge["observed"]) == ("2031-05-14T10:21:00.000Z", True)


def test_a_lane_shut_by_the_ground_is_no_loss(run: Run) -> None:
    shut = run("signal", LOST_AND_FOUND, "voice closed", "--lane", "voice", "--json").told
    bare = run("signal", LOST_AND_FOUND, "--lane", "voice", "--json").told
    assert shut["totals"] == bare["totals"]


def test_an_entry_that_clashes_is_told_here_too(run: Run) -> None:
    plan = LOST_AND_FOUND.replace("at = 2031", "pinned = true\nat = 2031").replace(
        'id = "checks"', 'id = "checks"\nwindow = ["none", 2031-05-14T10:21:00]'
    )
    answer = run("signal", plan, "ignition +2m", "ignition +1m")
    assert answer.status == 1
    assert answer.line("ignition +2m").startswith("ignition +2m: clash by 1 min: ")
    told = run("signal", plan, "ignition +2m", "--json").told
    assert (told["clash"]["entry"], told["clash"]["over_s"]) == ("ignition +2m", 60.0)
    assert told["edges"][0]["time"] == "2031-05-14T09:30:00.000Z"


def test_a_plan_without_a_signal_says_so(run: Run) -> None:
    plan = HEAD + '[[event]]\nid = "turn"\nat = 2031-05-14T10:00:00\n'
    assert run("signal", plan).out == "Clock times: UTC\nNo signal is known then\n"
    told = run("signal", plan, "--json").told
    assert (told["edges"], told["gaps"], told["contacts"], told["totals"]) == ([], [], [], {})
    answer = run("signal", plan, "--lane", "voice")
    assert answer.status == 2
    assert "no lane 'voice'; it has none" in answer.err


def test_a_length_is_the_difference_of_the_two_times_beside_it(run: Run) -> None:
    seen = ("voice back 2031-05-14T09:30:00.900Z", "voice lost 2031-05-14T09:50:00.100Z")
    answer = run("signal", LOST_AND_FOUND, *seen, "--lane", "voice", now="2031-05-14T09:51:00")
    rows = [" ".join(line.split()) for line in answer.out.splitlines()]
    assert "9:30:00 a.m. 9:50:00 a.m. 20 min 00 s voice through Tarn Hill" in rows
