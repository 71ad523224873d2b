"""Shortest ways among boxes by a Steiner graph (networkx), for scenes.json beside this file; writes answers.json.

A shortest way among flat-faced obstacles turns only on their edges (M. Sharir, A. Schorr, SIAM J. Comput. 15, 1986). Edges of
boxes, and of the openings between rooms, carry marks every SPACING metres; marks that see each other are linked; networkx finds
the shortest path. Two graphs:
 - `lengthM`: sight lines clear the boxes. A path of it is a way, so the true shortest way is no longer.
 - `relaxedM`: sight lines may pass through a rind of SPACING / 2 of each box and rim. The true shortest way with its corners moved
   to the next marks, by SPACING / 2 at most, is a path of this graph.
`slackM`: where the true way turns on the same edges as the relaxed path, moving its corners makes it longer to second order only:
a corner moved by e along its edge, between straights of lengths p and q, adds at most e^2 / 2 (1/p + 1/q), twice that for two
neighbours that move against each other.

To draw other scenes: change draw-scenes.ts, `STEINER_WRITE=1 npx vitest run tests/outside/steiner`. To tabulate them again (needs
numpy and networkx): `python3 tests/outside/steiner/shortest.py`, then `npx biome check --write tests/outside/steiner`.
"""

import json
import math
import os

import networkx as nx
import numpy as np

SPACING = 0.02
EPS = 1e-7
HERE = os.path.dirname(os.path.abspath(__file__))


def marks_on(a, b):
    n = max(1, math.ceil(np.linalg.norm(b - a) / SPACING))
    return [a + (b - a) * (k / n) for k in range(n + 1)]


def to_local(box, p):
    t = math.radians(box["yawDeg"])
    c, s = math.cos(t), math.sin(t)
    q = p - np.array(box["centre"])
    return np.stack([q[..., 0] * c + q[..., 1] * s, -q[..., 0] * s + q[..., 1] * c, q[..., 2]], axis=-1)


def from_local(box, q):
    t = math.radians(box["yawDeg"])
    c, s = math.cos(t), math.sin(t)
    return np.array([q[0] * c - q[1] * s, q[0] * s + q[1] * c, q[2]]) + np.array(box["centre"])


def edges_of(box):
    h = box["half"]
    for axis in range(3):
        i, j = [k for k in range(3) if k != axis]
        for si in (-1, 1):
            for sj in (-1, 1):
                a = [0.0, 0.0, 0.0]
                a[i], a[j] = si * h[i], sj * h[j]
                b = list(a)
                a[axis], b[axis] = -h[axis], h[axis]
                yield from_local(box, a), from_local(box, b)


def inside_box(box, p, shrink):
    q = np.abs(to_local(box, p))
    return np.all(q < np.array(box["half"]) - shrink, axis=-1)


def hits_box(box, p, q, shrink):
    """Whether segments p[i] q[i] pass through the box made smaller on all sides: slabs in its own axes."""
    a, b = to_local(box, p), to_local(box, q)
    d = b - a
    h = np.array(box["half"]) - shrink
    if np.any(h <= 0):
        return np.zeros(len(p), bool)
    low, high = np.zeros(len(p)), np.ones(len(p))
    miss = np.zeros(len(p), bool)
    for k in range(3):
        flat = np.abs(d[:, k]) < 1e-12
        miss |= flat & (np.abs(a[:, k]) >= h[k])
        step = np.where(flat, 1.0, d[:, k])
        t0, t1 = (-h[k] - a[:, k]) / step, (h[k] - a[:, k]) / step
        t0, t1 = np.minimum(t0, t1), np.maximum(t0, t1)
        low = np.where(flat, low, np.maximum(low, t0))
        high = np.where(flat, high, np.minimum(high, t1))
    return ~miss & (high - low > 1e-12)


def openings(rooms):
    for a, b in zip(rooms, rooms[1:]):
        low = [max(a["low"][k], b["low"][k]) for k in (1, 2)]
        high = [min(a["high"][k], b["high"][k]) for k in (1, 2)]
        yield a["high"][0], low, high


def clear(scene, p, q, shrink):
    """Segments that stay in the rooms and out of the boxes; rooms are convex, so openings are all that can be missed."""
    ok = np.ones(len(p), bool)
    for x, low, high in openings(scene["rooms"]):
        crosses = (p[:, 0] - x) * (q[:, 0] - x) < 0
        step = np.where(crosses, q[:, 0] - p[:, 0], 1.0)
        t = (x - p[:, 0]) / step
        for k in (0, 1):
            at = p[:, k + 1] + t * (q[:, k + 1] - p[:, k + 1])
            ok &= ~crosses | ((at >= low[k] - max(EPS, shrink)) & (at <= high[k] + max(EPS, shrink)))
    for box in scene["boxes"]:
        ok &= ~hits_box(box, p, q, max(EPS, shrink))
    return ok


def places(scene):
    """Start, goal and all marks that lie in a room and in no box, with the edge that each is on."""
    found, edge = [np.array(scene["from"]), np.array(scene["to"])], [-1, -2]
    lines = [line for box in scene["boxes"] for line in edges_of(box)]
    for x, low, high in openings(scene["rooms"]):
        corners = [np.array([x, y, z]) for y, z in ((low[0], low[1]), (high[0], low[1]), (high[0], high[1]), (low[0], high[1]))]
        lines += [(corners[k], corners[(k + 1) % 4]) for k in range(4)]
    for k, (a, b) in enumerate(lines):
        for p in marks_on(a, b):
            in_room = any(
                all(r["low"][i] - EPS <= p[i] <= r["high"][i] + EPS for i in range(3)) for r in scene["rooms"]
            )
            if in_room and not any(inside_box(box, p, EPS) for box in scene["boxes"]):
                found.append(p)
                edge.append(k)
    return np.array(found), edge


def shortest(scene, points, shrink):
    graph = nx.Graph()
    n = len(points)
    for i in range(n - 1):
        rest = points[i + 1 :]
        here = np.repeat(points[i : i + 1], len(rest), axis=0)
        far = np.linalg.norm(rest - here, axis=1)
        seen = clear(scene, here, rest, shrink) & (far > 1e-9)
        graph.add_weighted_edges_from((i, i + 1 + int(j), float(far[j])) for j in np.nonzero(seen)[0])
    length, path = nx.single_source_dijkstra(graph, 0, 1)
    return length, path


def slack_of(points, edge, path):
    corners = [path[0]]
    for k in path[1:]:
        if np.linalg.norm(points[k] - points[corners[-1]]) > 1e-9:
            corners.append(k)
    straights = [float(np.linalg.norm(points[b] - points[a])) for a, b in zip(corners, corners[1:])]
    return sum((SPACING / 2) ** 2 * (1 / p + 1 / q) for p, q in zip(straights, straights[1:]))


def answer(scene):
    points, edge = places(scene)
    length, path = shortest(scene, points, 0.0)
    relaxed, loose = shortest(scene, points, SPACING / 2)
    print(scene["id"], len(points), "marks", round(length, 4), round(relaxed, 4), len(path) - 2, "corners", flush=True)
    return {
        "id": scene["id"],
        "lengthM": round(length, 6),
        "path": [[round(float(v), 6) for v in points[k]] for k in path],
        "relaxedM": round(relaxed, 6),
        "slackM": round(slack_of(points, edge, loose), 6),
    }


def main():
    with open(os.path.join(HERE, "scenes.json")) as f:
        scenes = json.load(f)
    with open(os.path.join(HERE, "answers.json"), "w") as f:
        json.dump([answer(one) for one in scenes], f, indent=1)
        f.write("\n")


if __name__ == "__main__":
    main()
