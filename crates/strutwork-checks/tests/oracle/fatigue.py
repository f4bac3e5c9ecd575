"""Fatigue, EN 1993-1-9:2005, 7.1 (from memory): MPa, cycles."""


def limits(category, m_f=1.0):
    """(constant amplitude limit, cut-off) of a normal stress curve with slopes 3 and 5."""
    d = (2 / 5) ** (1 / 3) * category
    return d / m_f, (5 / 100) ** (1 / 5) * d / m_f


def life(stress, category, m_f=1.0):
    """Cycles at a stress range of constant amplitude that is part of a spectrum."""
    c = category / m_f
    d = (2 / 5) ** (1 / 3) * c
    l = (5 / 100) ** (1 / 5) * d
    if stress >= d:
        return 2e6 * (c / stress) ** 3
    if stress >= l:
        return 5e6 * (d / stress) ** 5
    return float("inf")


def life_lattice(stress, category, m_f=1.0):
    """Joints of lattice girders: one slope of 5 from the reference value, with the same cut-off at 1e8."""
    c = category / m_f
    l = (2 / 100) ** (1 / 5) * c
    return 2e6 * (c / stress) ** 5 if stress >= l else float("inf")


def damage(spectrum, category, m_f=1.0, curve=life):
    return sum(n / curve(s, category, m_f) for s, n in spectrum)
