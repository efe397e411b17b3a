"""A problem that hoofload exported (problem_json.hpp), ties merged and unused nodes dropped, and the one reading of any
program's displacements: quantities from consistent nodal forces with the three-point rule.

The filling's force is read from the other body's side (action and reaction). On the filling's own side a nearly incompressible
law magnifies what a program rounds: ccx's wedge of two degrees changes hoop strain by 1e-4 of itself, which at kappa/mu = 4000
is a percent of the pressure.

Units mm, N, MPa. Axisymmetric forces are those of the full circle, plane-strain ones of the whole breadth.
"""
import json
import numpy as np

GAUSS = np.array([-np.sqrt(.6), 0, np.sqrt(.6)]), np.array([5 / 9, 8 / 9, 5 / 9])
POINTS = np.array([[1 / 6, 1 / 6], [2 / 3, 1 / 6], [1 / 6, 2 / 3]])


def line_shapes(s):
    """Values and derivatives of the three-node line (end, end, mid) at s."""
    s = np.asarray(s, float)
    return np.stack([s * (s - 1) / 2, s * (s + 1) / 2, 1 - s * s], -1), np.stack([s - .5, s + .5, -2 * s], -1)


def triangle_shapes(xi, eta):
    l = 1 - xi - eta
    N = np.array([l * (2 * l - 1), xi * (2 * xi - 1), eta * (2 * eta - 1), 4 * l * xi, 4 * xi * eta, 4 * eta * l])
    dN = np.array([[1 - 4 * l, 1 - 4 * l], [4 * xi - 1, 0], [0, 4 * eta - 1],
                   [4 * (l - xi), -4 * xi], [4 * eta, 4 * xi], [-4 * eta, 4 * (l - eta)]])
    return N, dN


class Block:
    """Elements of one law: tri (m, 6) corners then mid-side nodes, mu and kappa [MPa]."""
    def __init__(self, b, number):
        self.region, self.law, self.mu, self.kappa = b["region"], b["law"], b["mu"], b["kappa"]
        self.C20 = b.get("C20", 0.0)
        self.rubber = self.law in ("neo-Hooke", "Yeoh")
        self.tri = number[np.array(b["tri"])]
        self.E = 9 * self.kappa * self.mu / (3 * self.kappa + self.mu)
        self.nu = self.E / 2 / self.mu - 1


class Problem:
    def __init__(self, path):
        d = json.load(open(path))
        self.name, self.finite, self.given = d["name"], d["finite"], d
        self.axisymmetric, self.breadth = d["symmetry"] == "axisymmetric", d["breadth"]
        X = np.array(d["X"])
        alias = np.arange(len(X))
        for slave, master in d["ties"]:
            alias[slave] = master
        used = np.unique(alias[np.concatenate([np.ravel(b["tri"]) for b in d["blocks"]])])
        number = np.full(len(X), -1)
        number[used] = np.arange(len(used))
        number = number[alias]
        self.X = X[used]
        self.blocks = [Block(b, number) for b in d["blocks"]]
        self.tri = np.vstack([b.tri for b in self.blocks])
        self.block_of = np.repeat(np.arange(len(self.blocks)), [len(b.tri) for b in self.blocks])
        self.held = sorted({(int(number[n]), int(c), float(v)) for n, c, v in d["held"] if number[n] >= 0})
        self.loads = [(int(number[n]), int(c), float(f)) for n, c, f in d["loads"]]
        renumber = lambda edges: self.rightward(number[np.array(edges)])
        self.contact = [(renumber(c["slave"]), renumber(c["master"]) if c["master"] else None) for c in d["contact"]]
        r = d["read"]
        self.filling, self.line, self.window = r["filling"], renumber(r["line"]), (r["from"], r["to"])
        self.facing = renumber(r["facing"])
        self.sinking = np.unique(number[np.array(r["sinking"], int)]) if r["sinking"] else np.array([], int)
        self.load, self.sink_node = r["load"], int(number[r["sink_node"]]) if r["sink_node"] >= 0 else -1

    def rightward(self, edges):
        """Edges walked towards larger x, in order of x."""
        e = np.where((self.X[edges[:, 0], 0] > self.X[edges[:, 1], 0])[:, None], edges[:, [1, 0, 2]], edges)
        return e[np.argsort(self.X[e[:, 0], 0])]

    def faces(self, edges):
        """(element, side 0..2) of the elements that own the edges; an edge between two elements is refused."""
        mids = {int(m) for m in edges[:, 2]}
        found = [(int(e), j) for j in range(3) for e in np.nonzero(np.isin(self.tri[:, 3 + j], list(mids)))[0]]
        assert len(found) == len(edges), "an edge is no outer one"
        return found

    def measure(self, x):
        return 2 * np.pi * x if self.axisymmetric else np.full_like(x, self.breadth)


def stress(b, F, finite):
    """First Piola stress of a block's law at gradients F (m, 3, 3)."""
    I = np.eye(3)
    lam = b.kappa - 2 * b.mu / 3
    if b.rubber:
        J = np.linalg.det(F)
        Fit = np.linalg.inv(F).transpose(0, 2, 1)
        I1 = np.einsum("eij,eij->e", F, F)
        twice = b.mu + 4 * b.C20 * (J ** (-2 / 3) * I1 - 3)          # 2 dW/dI1bar
        return (twice * J ** (-2 / 3))[:, None, None] * (F - (I1 / 3)[:, None, None] * Fit) \
            + (b.kappa * (J - 1) * J)[:, None, None] * Fit
    H = F - I
    e = .5 * (H + H.transpose(0, 2, 1)) + (.5 * H.transpose(0, 2, 1) @ H if finite else 0)
    S = lam * np.trace(e, axis1=1, axis2=2)[:, None, None] * I + 2 * b.mu * e
    return F @ S if finite else S


def forces(p, u, blocks):
    """Nodal internal forces (n, 2) of some blocks."""
    f = np.zeros_like(p.X)
    for b in blocks:
        x, ue = p.X[b.tri], u[b.tri]
        for xi, eta in POINTS:
            N, dN = triangle_shapes(xi, eta)
            jac = np.einsum("ak,eai->eik", dN, x)
            G = np.einsum("ak,eki->eai", dN, np.linalg.inv(jac))
            r = x[:, :, 0] @ N
            F = np.zeros((len(x), 3, 3)) + np.eye(3)
            F[:, :2, :2] += np.einsum("eai,eaj->eij", ue, G)
            if p.axisymmetric:
                F[:, 2, 2] += (ue[:, :, 0] @ N) / r
            P = stress(b, F, p.finite)
            fe = np.einsum("eij,eaj->eai", P[:, :2, :2], G)
            if p.axisymmetric:
                fe[:, :, 0] += P[:, 2, 2][:, None] * N / r[:, None]
            np.add.at(f, b.tri, fe * (p.measure(r) * np.linalg.det(jac) / 6)[:, None, None])
    return f


def read(p, u):
    """The readings of problem.hpp, from displacements (n, 2)."""
    load = -forces(p, u, p.blocks)[p.sinking, 1].sum() if len(p.sinking) else p.load
    sink = -u[p.sinking[0], 1] if len(p.sinking) else -u[p.sink_node, 1]
    own = forces(p, u, [b for b in p.blocks if b.region == p.filling])[np.unique(p.line), 1].sum()
    f = -forces(p, u, [b for b in p.blocks if b.region != p.filling])
    e = p.facing
    v = np.append(e[:, 0], e[-1, 1])
    x = p.X[:, 0] + (u[:, 0] if p.finite else 0)
    up = -f[v, 1]
    up[:-1] -= .5 * f[e[:, 2], 1]
    up[1:] -= .5 * f[e[:, 2], 1]
    A, area, k = np.zeros((len(v), len(v))), 0, np.arange(len(e))
    for s, w in zip(*GAUSS):
        N, D = line_shapes(s)
        c = p.measure(x[e] @ N) * (x[e] @ D) * w
        area += (p.measure(x[p.line] @ N) * (x[p.line] @ D) * w).sum()
        a, b = (1 - s) / 2, (1 + s) / 2
        A[k, k] += c * a * a
        A[k + 1, k + 1] += c * b * b
        A[k, k + 1] += c * a * b
        A[k + 1, k] += c * a * b
    pressure, at = np.linalg.solve(A, up), p.X[v, 0]
    inside = (at >= p.window[0]) & (at <= p.window[1])
    total = -f[np.unique(e), 1].sum()
    return dict(sink_mm=float(sink), load_N=float(load), share_pct=float(100 * total / load),
                p_mean_MPa=float(total / area), p_peak_MPa=float(pressure[inside].max()),
                share_own_side_pct=float(-100 * own / load))
