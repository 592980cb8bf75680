"""Writes ../data/plans.json: days of practice with the best value that any plan of them has, proven by CP-SAT.

    pip install -r requirements.txt && python plans.py

240 invented days, seeded. A plan is a path through blocks: every block that is played has one before it (or is the first)
and one after it (or is the last). What a block may follow, and after which gap, stands on the arcs. Only optima that the
solver has proven are written; a day that takes longer than a minute is left out, and the script says so. The three days
`published` come from plan_instances.json of this folder, solved by CP-SAT and by exhaustive search.
"""

import json
import random
from pathlib import Path

from ortools.sat.python import cp_model

DAYS, SEED = 240, 20261201


def invented(rng):
    """A day: up to three blocks a snippet in their order, each worth less than the one before."""
    snippets = rng.randint(2, 12)
    minutes = rng.choice([10, 15, 20, 30, 40, 40, 40, 60])
    usual = rng.choice([3, 4, 5, 5, 6, 8])
    blocks = []
    for snippet in range(snippets):
        value, needs = rng.randint(10, 100), None
        earliest = rng.choice([0, 0, 0, 0, rng.randint(1, 15)])
        for nth in range(rng.randint(1, 3)):
            length = max(1, usual + rng.randint(-2, 3))
            blocks.append([snippet, length, max(1, value), earliest, needs, 0])
            needs, value = len(blocks) - 1, int(value * rng.uniform(0.4, 1.0))
    if rng.random() < 0.5:
        snippet = rng.randrange(snippets)
        last = max(i for i, block in enumerate(blocks) if block[0] == snippet)
        first = min(i for i, block in enumerate(blocks) if block[0] == snippet)
        if last - first < 2:
            blocks.append([snippet, rng.randint(1, 3), rng.randint(20, 80), 0, first, 1])
    pairs = [[a, b] for a in range(snippets) for b in range(a) if rng.random() < 0.15]
    rests = [rng.choice([5, 10, 15, 15, 20]) for _ in range(snippets)]
    early = rng.choice([10, 10, 10, 25])
    return dict(minutes=minutes, max_run=25, break_minutes=5, early=early, rests=rests, alike=pairs, blocks=blocks)


def playable(day):
    """Minutes that can be played at most, with the breaks."""
    round_trip = day["max_run"] + day["break_minutes"]
    return day["minutes"] // round_trip * day["max_run"] + min(day["minutes"] % round_trip, day["max_run"])


def optimum(day):
    model, blocks, minutes, pause = cp_model.CpModel(), day["blocks"], day["minutes"], day["break_minutes"]
    alike = {frozenset(pair) for pair in day["alike"]}
    alone = len({block[0] for block in blocks}) == 1
    n = len(blocks)
    played = [model.new_bool_var("") for _ in blocks]
    start = [model.new_int_var(0, minutes, "") for _ in blocks]
    run = [model.new_int_var(0, day["max_run"], "") for _ in blocks]
    in_first = [model.new_bool_var("") for _ in blocks]
    paused = [model.new_bool_var("") for _ in blocks]  # before this block
    arcs = [(n, n, (nobody := model.new_bool_var("")))]
    for i, (snippet, length, _, earliest, needs, closes) in enumerate(blocks):
        arcs.append((i, i, ~played[i]))
        model.add(start[i] + length <= minutes).only_enforce_if(played[i])
        model.add(start[i] >= earliest).only_enforce_if(played[i])
        model.add_implication(nobody, ~played[i])
        if needs is not None:
            model.add_implication(played[i], played[needs])
            model.add(start[i] >= start[needs] + blocks[needs][1] + day["rests"][snippet]).only_enforce_if(played[i])
        first, last = model.new_bool_var(""), model.new_bool_var("")
        arcs += [(n, i, first), (i, n, last)]
        model.add(run[i] == length).only_enforce_if(first)
        model.add_implication(first, in_first[i])
        if closes:
            model.add_implication(played[i], last)
        for j, (other, its_length, *_) in enumerate(blocks):
            if i == j or (snippet == other and not alone):
                continue
            arc = model.new_bool_var("")
            arcs.append((i, j, arc))
            end = start[i] + length
            model.add(start[j] >= end).only_enforce_if(arc)
            model.add(start[j] >= end + pause).only_enforce_if([arc, paused[j]])
            model.add(run[j] == its_length).only_enforce_if([arc, paused[j]])
            model.add(run[j] == run[i] + its_length).only_enforce_if([arc, ~paused[j]])
            model.add_implication(arc, ~in_first[j]).only_enforce_if(paused[j])
            model.add(in_first[j] == in_first[i]).only_enforce_if([arc, ~paused[j]])
            model.add(run[i] < day["early"]).only_enforce_if([arc, ~paused[j], in_first[i]])
            if frozenset((snippet, other)) in alike:
                model.add_implication(arc, paused[j])
    model.add_circuit(arcs)
    # Implied, for a quicker proof.
    model.add(sum(block[1] * played[i] for i, block in enumerate(blocks)) <= playable(day))
    optional = [model.new_optional_fixed_size_interval_var(start[i], b[1], played[i], "") for i, b in enumerate(blocks)]
    model.add_no_overlap(optional)
    for snippet, rest in enumerate(day["rests"]):
        own = [i for i, block in enumerate(blocks) if block[0] == snippet]
        for a in own:
            for b in own:
                if a < b:
                    before = model.new_bool_var("")
                    both = [played[a], played[b]]
                    model.add(start[b] >= start[a] + blocks[a][1] + rest).only_enforce_if(both + [before])
                    model.add(start[a] >= start[b] + blocks[b][1] + rest).only_enforce_if(both + [~before])
    model.maximize(sum(block[2] * played[i] for i, block in enumerate(blocks)))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers, solver.parameters.max_time_in_seconds = 1, 60
    status = solver.solve(model)
    return int(solver.objective_value) if status == cp_model.OPTIMAL else None


def published():
    """The days that were solved twice, in the columns of the others."""
    text = (Path(__file__).parent / "plan_instances.json").read_text()
    for instance in json.loads(text)["instances"]:
        names = sorted({block["excerpt"] for block in instance["blocks"]})
        blocks = [[names.index(b["excerpt"]), b["dur"], b["value"], 0, None, 0] for b in instance["blocks"]]
        run = instance.get("max_run", instance["horizon"])
        yield dict(
            minutes=instance["horizon"], max_run=run, break_minutes=instance.get("break_len", 0), early=run,
            rests=[instance["rest"].get(name, 0) for name in names], alike=[], blocks=blocks,
            optimum=instance["optimum"],
        )


def main():
    rng, solved = random.Random(SEED), []
    for _ in range(DAYS):
        day = invented(rng)
        best = optimum(day)
        if best is not None:
            solved.append(day | {"optimum": best})
    print(len(solved), "of", DAYS, "proven")
    for day in published():
        assert optimum(day) == day["optimum"], day
    columns = "blocks: snippet, minutes, value, earliest, block needed before or null, 1 where it can only be the last"
    source = f"Invented by tests/reference/plans.py, optima proven by CP-SAT of ortools 9.15.6755. {columns}"
    lines = {"source": source, "published": list(published()), "invented": solved}
    text = ",\n".join(json.dumps(day, separators=(",", ":")) for day in solved)
    firsts = ",\n".join(json.dumps(day, separators=(",", ":")) for day in lines["published"])
    head = json.dumps(source)
    (Path(__file__).parent / "../data/plans.json").write_text(
        f'{{"source":{head},\n"published":[\n{firsts}],\n"invented":[\n{text}]}}\n'
    )


if __name__ == "__main__":
    main()
