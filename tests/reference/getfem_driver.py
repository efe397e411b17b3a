"""GetFEM 5.4: quadratic displacements on quadratic geometry, energies in its weak-form language, MUMPS; contact by raytracing
and penalty. GetFEM merges mesh nodes that coincide: the slave side of a contact is moved off its master by SHIFT, in the
problem itself, so that the reading sees the same places (unshifted it would cost 3 % of the share at kappa 1500)."""
import numpy as np

SHIFT = 1e-4                                       # mm
MOST = 40                                          # iterations in a step
SIDE = {0: 2, 1: 0, 2: 1}                          # our side of a triangle (corners j, j + 1): the face opposite to a corner
ORDER = [0, 3, 1, 5, 4, 2]                         # GetFEM: 1, mid 12, 2, mid 31, mid 23, 3


def shift_slaves(p):
    from dolfinx_driver import above
    for slave, master in p.contact:
        if master is not None:
            p.X[np.unique(slave), 1] -= SHIFT if above(p, slave) else -SHIFT


def mesh_of(p, gf):
    m = gf.Mesh("empty", 2)
    cv = np.array(m.add_convex(gf.GeoTrans("GT_PK(2,2)"), p.X[p.tri[:, ORDER]].transpose(2, 1, 0))).ravel()
    for k in range(len(p.blocks)):
        mine = cv[p.block_of == k]
        m.set_region(1 + k, np.vstack([mine, np.full(len(mine), -1)]).astype(int))
    return m, cv


def add_energy(p, md, mim):
    hoop, measure = ("u(1)/X(1)", "2*pi*X(1)") if p.axisymmetric else ("0", "%.15g" % p.breadth)
    H = "[Grad_u(1,1),Grad_u(1,2),0;Grad_u(2,1),Grad_u(2,2),0;0,0,%s]" % hoop
    F = "([1,0,0;0,1,0;0,0,1]+%s)" % H
    e = "(0.5*(%s'*%s-Id(3)))" % (F, F) if p.finite else "Sym(%s)" % H
    for k, b in enumerate(p.blocks):
        w = "%.15g*(%s:%s)+%.15g*sqr(Trace(%s))" % (b.mu, e, e, b.kappa / 2 - b.mu / 3, e)
        if b.rubber:
            I = "(pow(Det(%s),-2/3)*Norm_sqr(%s)-3)" % (F, F)
            w = "%.15g*%s+%.15g*sqr(%s)+%.15g*sqr(Det(%s)-1)" % (b.mu / 2, I, b.C20, I, b.kappa / 2, F)
        (md.add_nonlinear_term if p.finite else md.add_linear_term)(mim, "%s*(%s)" % (measure, w), 1 + k)


def add_contact(p, md, mesh, mim, cv, kn):
    measure, region = "2*pi*X(1)" if p.axisymmetric else "%.15g" % p.breadth, 100
    md.add_initialized_data("kn", [kn])

    def named(edges):
        nonlocal region
        region += 1
        mesh.set_region(region, np.array([[cv[e], SIDE[s]] for e, s in p.faces(edges)]).T)
        return region
    for k, (slave, master) in enumerate(p.contact):
        if master is None:
            md.add_nonlinear_term(mim, "-%s*kn*neg_part(X(2)+u(2))*Test_u(2)" % measure, named(slave))
            continue
        ray, n = "ray%d" % k, "Transformed_unit_vector(Grad_u,Normal)"   # the slave's normal: GetFEM cannot derive the master's
        md.add_raytracing_transformation(ray, 1.0)
        ids = named(master), named(slave)
        md.add_master_contact_boundary_to_raytracing_transformation(ray, mesh, "u", ids[0])
        md.add_slave_contact_boundary_to_raytracing_transformation(ray, mesh, "u", ids[1])
        gap = "((Interpolate(X,%s)+Interpolate(u,%s)-X-u).%s)" % (ray, ray, n)
        md.add_nonlinear_term(mim, "Interpolate_filter(%s,-%s*kn*neg_part(%s)*(%s.(Interpolate(Test_u,%s)-Test_u)),1)"
                              % (ray, measure, gap, n, ray), ids[1])


def solve(p, work, kn=1000.0, quad=2, steps=4):
    import getfem as gf
    gf.util_trace_level(0)
    gf.util_warning_level(0)
    shift_slaves(p)
    mesh, cv = mesh_of(p, gf)
    mf = gf.MeshFem(mesh, 2)
    mf.set_fem(gf.Fem("FEM_PK(2,2)"))
    mim, mim_edge = gf.MeshIm(mesh, gf.Integ("IM_TRIANGLE(%d)" % int(quad))), gf.MeshIm(mesh, gf.Integ("IM_TRIANGLE(5)"))
    dof = np.full(len(p.X), -1)
    cvs, idx = mf.basic_dof_from_cvid(cv)
    for e in range(len(p.tri)):
        dof[p.tri[e, ORDER]] = cvs[idx[e]:idx[e + 1]][::2]
    md = gf.Model("real")
    md.add_fem_variable("u", mf)
    add_energy(p, md, mim)
    if p.contact:
        add_contact(p, md, mesh, mim_edge, cv, kn)
    rhs = np.zeros(mf.nbdof())
    for n, c, f in p.loads:
        rhs[dof[n] + c] += f
    held = [(dof[n] + c, v) for n, c, v in p.held]
    rows, value = np.array([h[0] for h in held]), np.array([h[1] for h in held])
    B = gf.Spmat("empty", len(held), mf.nbdof())
    for i, r in enumerate(rows):
        B.add(i, int(r), 1.0)
    md.add_variable("hold", len(held))
    steps = int(steps) if p.finite else 1
    load_brick = md.add_explicit_rhs("u", 0 * rhs)
    hold_brick = md.add_constraint_with_multipliers("u", "hold", B, 0 * value)
    for step in range(1, steps + 1):
        md.set_private_rhs(load_brick, rhs * step / steps)
        md.set_private_rhs(hold_brick, value * step / steps)
        # 1e-8 lies below what the penalty's round-off leaves: GetFEM then goes on to its limit and returns the step before in silence.
        if int(np.ravel(md.solve("max_res", 1e-5, "max_iter", MOST, "lsolver", "mumps"))[0]) >= MOST:
            raise RuntimeError("GetFEM did not converge in step %d of %d" % (step, steps))
    U = md.variable("u")
    return np.stack([U[dof], U[dof + 1]], 1)
