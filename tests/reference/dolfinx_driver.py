"""dolfinx 0.5: quadratic displacements on quadratic geometry, the energy written in UFL, MUMPS; frictionless penalty contact
with finite sliding is added here in numpy, since dolfinx has none."""
import os
import numpy as np
from problem import GAUSS, line_shapes


def facing(x, master, at):
    """Points of the deformed chain `master` at abscissae `at`: edge numbers, shape values, places, tangents."""
    k = np.clip(np.searchsorted(x[master[:, 0], 0], at, side="right") - 1, 0, len(master) - 1)
    s = np.zeros(len(at))
    for _ in range(8):
        N, D = line_shapes(s)
        X, T = np.einsum("ea,eai->ei", N, x[master[k]]), np.einsum("ea,eai->ei", D, x[master[k]])
        s = s - (X[:, 0] - at) / T[:, 0]
    N, D = line_shapes(s)
    return k, N, np.einsum("ea,eai->ei", N, x[master[k]]), np.einsum("ea,eai->ei", D, x[master[k]])


def contact(p, u, kn):
    """Penalty p = kn x overlap. Forces on the nodes (n, 2), tangent as COO triplets, number of open points."""
    x, f, trip, n_open = p.X + u, np.zeros_like(u), [], 0
    for slave, master in p.contact:
        up = above(p, slave)
        for s, w in zip(*GAUSS):
            N, D = line_shapes(s)
            xs, t, R = (np.einsum("a,eai->ei", v, y) for v, y in ((N, x[slave]), (D, p.X[slave]), (N, p.X[slave])))
            dA = p.measure(R[:, 0]) * np.hypot(t[:, 0], t[:, 1]) * w
            Ns = np.tile(-N, (len(slave), 1))
            if master is None:
                n, g, nodes, coef = np.tile([0., -1.], (len(slave), 1)), xs[:, 1], slave, Ns
            else:
                k, Nm, xm, tm = facing(x, master, xs[:, 0])
                n = np.stack([-tm[:, 1], tm[:, 0]], 1) / np.hypot(tm[:, 0], tm[:, 1])[:, None] * (1 if up else -1)
                g = ((xm - xs) * n).sum(1)
                nodes, coef = np.hstack([master[k], slave]), np.hstack([Nm, Ns])
            active = g < 1e-9                      # bodies that just touch resist from the first iteration on
            n_open += int((~active).sum())
            force = np.where(active, -kn * g, 0) * dA
            np.add.at(f, nodes, coef[:, :, None] * n[:, None, :] * force[:, None, None])
            B = (coef[:, :, None] * n[:, None, :]).reshape(len(g), -1)
            K = B[:, :, None] * B[:, None, :] * (np.where(active, kn, 0) * dA)[:, None, None]
            d = np.stack([2 * nodes, 2 * nodes + 1], 2).reshape(len(g), -1)
            trip.append((K.ravel(), np.repeat(d, d.shape[1], 1).ravel(), np.tile(d, (1, d.shape[1])).ravel()))
    return f, [np.concatenate(q) for q in zip(*trip)], n_open


def above(p, slave):
    """Whether the slave chain is the upper face of its body: its element's third corner lies below it."""
    e, side = p.faces(slave[:1])[0]
    third = p.tri[e, (side + 2) % 3]
    return p.X[third, 1] < p.X[slave[0, :2], 1].mean()


def energy(p, u, r, dx):
    """The stored energy in UFL, block by block."""
    import ufl
    hoop = u[0] / r if p.axisymmetric else 0
    H = ufl.as_tensor([[u[0].dx(0), u[0].dx(1), 0], [u[1].dx(0), u[1].dx(1), 0], [0, 0, hoop]])
    F, m, W = ufl.Identity(3) + H, 2 * np.pi * r if p.axisymmetric else p.breadth, 0
    e = ufl.sym(H) + (0.5 * H.T * H if p.finite else 0 * H)
    for k, b in enumerate(p.blocks):
        if b.rubber:
            J = ufl.det(F)
            I = J ** (-2 / 3) * ufl.tr(F.T * F) - 3
            w = b.mu / 2 * I + b.C20 * I ** 2 + b.kappa / 2 * (J - 1) ** 2
        else:
            w = b.mu * ufl.inner(e, e) + (b.kappa / 2 - b.mu / 3) * ufl.tr(e) ** 2
        W += w * m * dx(k)
    return W


def forms(p, quad):
    """Residual and tangent forms, the displacement function and node -> dof numbering."""
    import dolfinx, ufl
    from dolfinx import fem
    from dolfinx.io.gmshio import cell_perm_array
    from mpi4py import MPI
    domain = ufl.Mesh(ufl.VectorElement("Lagrange", ufl.Cell("triangle", geometric_dimension=2), 2))
    mesh = dolfinx.mesh.create_mesh(MPI.COMM_WORLD, p.tri[:, cell_perm_array(dolfinx.mesh.CellType.triangle, 6)], p.X, domain)
    V = fem.FunctionSpace(mesh, ufl.VectorElement("Lagrange", mesh.ufl_cell(), 2))
    node = np.zeros(len(p.X), int)
    node[V.dofmap.list.array] = np.array(mesh.geometry.input_global_indices)[mesh.geometry.dofmap.array]
    dof = np.argsort(node)
    cells = np.array(mesh.topology.original_cell_index)
    tags = dolfinx.mesh.meshtags(mesh, 2, np.arange(len(cells), dtype=np.int32), p.block_of[cells].astype(np.int32))
    dx = ufl.Measure("dx", domain=mesh, subdomain_data=tags, metadata={"quadrature_degree": int(quad)})
    u = fem.Function(V)
    R = ufl.derivative(energy(p, u, ufl.SpatialCoordinate(mesh)[0], dx), u, ufl.TestFunction(V))
    K = ufl.derivative(R, u, ufl.TrialFunction(V))
    return u, fem.form(R), fem.form(K), np.stack([2 * dof, 2 * dof + 1], 1).ravel()


def lu(K, b):
    from petsc4py import PETSc
    A = PETSc.Mat().createAIJ(size=K.shape, csr=(K.indptr, K.indices, K.data))
    ksp = PETSc.KSP().create()
    ksp.setOperators(A)
    ksp.setType("preonly")
    ksp.getPC().setType("lu")
    ksp.getPC().setFactorSolverType("mumps")
    x, rhs = A.createVecs()
    rhs.array[:] = b
    ksp.solve(rhs, x)
    out = x.array.copy()
    ksp.destroy(), A.destroy()
    return out


def solve(p, work, kn=1000.0, quad=2, steps=8):
    import scipy.sparse as sp
    from dolfinx import fem
    u, R, K_form, perm = forms(p, quad)
    load, fixed, value = np.zeros((len(p.X), 2)), np.zeros((len(p.X), 2), bool), np.zeros((len(p.X), 2))
    for n, c, f in p.loads:
        load[n, c] += f
    for n, c, v in p.held:
        fixed[n, c], value[n, c] = True, v
    free, un = np.nonzero(~fixed.ravel())[0], np.zeros((len(p.X), 2))
    A = fem.petsc.create_matrix(K_form)
    steps = int(steps) if p.finite else 1
    for step in range(1, steps + 1):
        jump = np.where(fixed, value * step / steps - un, 0).ravel()   # held nodes move with the first iteration
        for it in range(60):
            u.x.array[perm] = un.ravel()
            b = fem.petsc.assemble_vector(R)
            res = (load * step / steps).ravel() - b.array[perm]
            A.zeroEntries()
            fem.petsc.assemble_matrix(A, K_form)
            A.assemble()
            ia, ja, va = A.getValuesCSR()
            K = sp.csr_matrix((va, ja, ia), shape=A.size)[perm][:, perm]
            if p.contact:
                f, (v, i, j), n_open = contact(p, un, kn)
                res += f.ravel()
                K = K + sp.csr_matrix((v, (i, j)), shape=K.shape)
            scale = max(np.abs(b.array).max(), 1e-9)
            if it and np.abs(res[free]).max() < 1e-8 * scale:
                break
            d = jump.copy()
            d[free] = lu(K[free][:, free].tocsr(), (res - K @ jump)[free])
            un, jump = un + d.reshape(-1, 2), 0 * jump
        else:
            raise RuntimeError("dolfinx: no convergence in step %d" % step)
    if p.contact:
        print("%s: dolfinx: %d open contact points" % (p.name, n_open), file=__import__("sys").stderr)
    return un
