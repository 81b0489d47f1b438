"""Answers of OR-Tools CP-SAT for the run order: invented problems, the least cost or a bound for it.

Run from this folder: python3 run_order.py > run_order.json (about a quarter of an hour)

The model goes position by position: which step stands there, what the hand, each copy, the site, the
motor and each site's sleeve are after it. A sleeve may leave its site at any time at no cost; the
statement lets it leave only for another site that needs it, but to leave sooner never helps.
"""

import json
import random
import sys

import ortools
from ortools.sat.python import cp_model

SECONDS = 60
NONE = "-"


def problem(seed, sites, steps, lie, weights, objective):
    """A problem in the notation of the program. Nothing in it is of any maker."""
    rng = random.Random(seed)
    tools = steps if lie == "shared" else steps + 1
    names = [f"t{n}" for n in range(tools)]
    chains = []
    for site in range(sites):
        own = sorted(rng.sample(range(tools), steps))
        if lie == "unordered":
            rng.shuffle(own)
        depth = f"d{rng.randrange(3)}"
        ops = []
        for tool in own:
            op = {"speed_rpm": 600 + 200 * (tool // 2)}
            op["instrument"] = {"tool": names[tool]}
            if tool > 0:
                op["instrument"]["setting"] = depth
            if tool == tools - 1:
                op["sleeve"] = "out"
            elif tool > 0:
                op["sleeve"] = {"place": f"v{tool // 2}"}
            ops.append(op)
        chains.append({"id": f"p{site}", "steps": ops})
    rules = {"before": [], "groups": []}
    if seed % 3 == 0:
        rules["before"].append({"first": "p0", "first_step": 1, "then": "p1", "then_step": 2})
    return {
        "traywright_order": 1,
        "objective": objective,
        "weights": dict(
            zip(("mount_ds", "reset_ds", "move_ds", "sleeve_ds", "speed_ds"), weights)
        ),
        "tools": [{"id": name, "copies": rng.randint(1, 2)} for name in names],
        "sleeves": [
            {"id": f"v{n}", "pieces": rng.randint(1, 2)} for n in range(tools // 2 + 1)
        ],
        "sites": chains,
        "rules": rules,
    }


def solve(data):
    """Status, best value found and bound, as (re-sets first) one number."""
    model = cp_model.CpModel()
    chains = [site["steps"] for site in data["sites"]]
    ops = [(i, k) for i, chain in enumerate(chains) for k in range(len(chain))]
    times = range(len(ops))
    w = data["weights"]
    ahead = 0
    if data["objective"] == "fewest_resets":
        ahead = sum(w.values()) * len(ops) + 1

    def op(i, k):
        return chains[i][k]

    def tool(i, k):
        return op(i, k).get("instrument", {}).get("tool")

    def setting(i, k):
        return op(i, k)["instrument"].get("setting", "bare")

    at = {(t, o): model.new_bool_var("") for t in times for o in ops}
    for t in times:
        model.add_exactly_one(at[t, o] for o in ops)
    for o in ops:
        model.add_exactly_one(at[t, o] for t in times)
    when = {o: sum(t * at[t, o] for t in times) for o in ops}
    for i, k in ops:
        if k:
            model.add(when[i, k - 1] + 1 <= when[i, k])
    index = {site["id"]: n for n, site in enumerate(data["sites"])}
    for rule in data["rules"]["before"]:
        a, b = index[rule["first"]], index[rule["then"]]
        first = rule.get("first_step", len(chains[a])) - 1
        then = rule.get("then_step", 1) - 1
        model.add(when[a, first] + 1 <= when[b, then])

    terms = []

    def one_of(values):
        chosen = {v: model.new_bool_var("") for v in values}
        model.add_exactly_one(chosen.values())
        return chosen

    def charge(weight, *literals_and_limit):
        """Costs `weight` where all these hold."""
        cost = model.new_bool_var("")
        model.add_bool_or([x.negated() for x in literals_and_limit] + [cost])
        terms.append(weight * cost)

    # Hand and copies.
    copies = [(t["id"], q) for t in data["tools"] for q in range(t["copies"])]
    hand = {t: one_of([NONE, *copies]) for t in [-1, *times]}
    model.add(hand[-1][NONE] == 1)
    settings = {
        name: sorted({setting(*o) for o in ops if tool(*o) == name})
        for name in {t["id"] for t in data["tools"]}
    }
    carried = {
        (t, p): one_of([NONE, *settings[p[0]]]) for t in [-1, *times] for p in copies
    }
    for p in copies:
        model.add(carried[-1, p][NONE] == 1)
    for t in times:
        bare = [at[t, o] for o in ops if tool(*o) is None]
        for p in copies:
            charge(w["mount_ds"], hand[t][p], hand[t - 1][p].negated())
            own = [at[t, o] for o in ops if tool(*o) == p[0]]
            used = model.new_bool_var("")
            # Used: it is in the hand and the step is one with its tool.
            for x in own:
                model.add_implication(x, used).only_enforce_if(hand[t][p])
            model.add(sum(own) >= 1).only_enforce_if(used)
            model.add_implication(used, hand[t][p])
            for value in [NONE, *settings[p[0]]]:
                model.add(carried[t, p][value] == carried[t - 1, p][value]).only_enforce_if(
                    used.negated()
                )
            for o in ops:
                if tool(*o) == p[0]:
                    model.add_implication(at[t, o], carried[t, p][setting(*o)]).only_enforce_if(
                        used
                    )
            for value in settings[p[0]]:
                charge(
                    w["reset_ds"] + ahead,
                    used,
                    carried[t - 1, p][value],
                    carried[t, p][value].negated(),
                )
        for o in ops:
            if tool(*o) is not None:
                mine = [hand[t][p] for p in copies if p[0] == tool(*o)]
                model.add(sum(mine) == 1).only_enforce_if(at[t, o])
        for value in [NONE, *copies]:
            for x in bare:
                model.add(hand[t][value] == hand[t - 1][value]).only_enforce_if(x)

    # Moves.
    site = {(t, i): sum(at[t, o] for o in ops if o[0] == i) for t in times for i in range(len(chains))}
    for t in times:
        if t:
            for i in range(len(chains)):
                cost = model.new_bool_var("")
                model.add(cost >= site[t, i] - site[t - 1, i])
                terms.append(w["move_ds"] * cost)

    # Sleeves.
    pieces = {s["id"]: s["pieces"] for s in data["sleeves"]}
    holds = {
        (t, i): one_of([NONE, *pieces]) for t in [-1, *times] for i in range(len(chains))
    }
    for i in range(len(chains)):
        model.add(holds[-1, i][NONE] == 1)
    for t in times:
        for s, count in pieces.items():
            model.add(sum(holds[t, i][s] for i in range(len(chains))) <= count)
        for i, k in ops:
            sleeve = op(i, k).get("sleeve", "keep")
            here = at[t, (i, k)]
            if sleeve == "out":
                model.add_implication(here, holds[t, i][NONE])
            elif sleeve != "keep":
                s = sleeve["place"]
                model.add_implication(here, holds[t, i][s])
                charge(w["sleeve_ds"], here, holds[t - 1, i][s].negated())
        for i in range(len(chains)):
            for s in pieces:
                # What was not held is held only where a step of the site puts it in.
                puts = [
                    at[t, (i, k)]
                    for k in range(len(chains[i]))
                    if op(i, k).get("sleeve") == {"place": s}
                ]
                model.add(holds[t, i][s] <= holds[t - 1, i][s] + sum(puts))

    # Speeds.
    speeds = sorted({op(*o)["speed_rpm"] for o in ops if "speed_rpm" in op(*o)})
    speed = {t: one_of([NONE, *speeds]) for t in [-1, *times]}
    model.add(speed[-1][NONE] == 1)
    for t in times:
        for o in ops:
            if "speed_rpm" in op(*o):
                model.add_implication(at[t, o], speed[t][op(*o)["speed_rpm"]])
            else:
                for value in [NONE, *speeds]:
                    model.add(speed[t][value] == speed[t - 1][value]).only_enforce_if(at[t, o])
        for value in speeds:
            charge(w["speed_ds"], speed[t - 1][value], speed[t][value].negated())

    model.minimize(sum(terms))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = SECONDS
    solver.parameters.num_workers = 2
    status = solver.solve(model)
    return {
        "status": solver.status_name(status),
        "value": round(solver.objective_value),
        "bound": int(-(-solver.best_objective_bound // 1)),
        "ahead": ahead,
        "seconds": round(solver.wall_time, 1),
    }


ROWS = [
    # seed, sites, steps, how the protocols lie to each other, weights, objective
    (0, 3, 3, "shared", (150, 600, 60, 80, 30), "fewest_resets"),
    (1, 3, 3, "rising", (150, 600, 60, 80, 30), "least_time"),
    (2, 3, 3, "unordered", (90, 40, 70, 50, 20), "least_time"),
    (3, 3, 3, "unordered", (150, 600, 60, 80, 30), "fewest_resets"),
    (4, 3, 4, "shared", (150, 100, 60, 80, 30), "least_time"),
    (5, 3, 4, "rising", (40, 100, 90, 30, 10), "fewest_resets"),
    (6, 4, 2, "unordered", (30, 20, 50, 10, 0), "least_time"),
    (7, 4, 3, "rising", (10, 0, 30, 5, 5), "least_time"),
    (8, 4, 3, "unordered", (150, 600, 60, 80, 30), "fewest_resets"),
    (9, 4, 4, "shared", (150, 600, 60, 80, 30), "fewest_resets"),
    (10, 5, 4, "unordered", (150, 100, 60, 80, 30), "least_time"),
    (11, 6, 4, "rising", (150, 600, 60, 80, 30), "fewest_resets"),
]


def main():
    answers = []
    for row in ROWS:
        data = problem(*row)
        answers.append({"problem": data, "answer": solve(data)})
        print(row, answers[-1]["answer"], file=sys.stderr, flush=True)
    out = {"ortools": ortools.__version__, "seconds_allowed": SECONDS, "rows": answers}
    print(json.dumps(out, indent=1))


if __name__ == "__main__":
    main()
