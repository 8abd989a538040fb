"""The shaft as a beam: sections, stiffness along it, elements, rigid bodies, and the solvers for vibration and statics."""
