"""The scoring method a second time, as its text reads, step by step and slow.

It was written from the text alone, by somebody who had not seen the Go code, in whole
fractions where the text says exact. It reads a bundle a line and writes, a line each, the
bundle with the results. See README.md.
"""

import json
import math
import statistics
import sys
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction as F

DEF = dict(
    trim=1,
    discard=1.645,
    style=True,
    seat_weights='measured',
    outlier=6,
    lean=2,
    group_min=11,
    hard_zero_majority='more-than-half',
    perception_zero='majority',
)
GAP = 'gap'  # in a clean table: the seat says nothing of the item


def num(g):
    """a grade as a number, None for a code"""
    return None if g in ('HZ', 'PZ', 'A', '') else F(Decimal(g))


def round2(x):
    """to 2 decimals, half away from zero, on the shortest decimal text of the double"""
    return float(Decimal(repr(float(x))).quantize(Decimal('0.01'), rounding=ROUND_HALF_UP))


def round2exact(fr):
    """to 2 decimals, half away from zero, of a fraction"""
    n = fr * 100
    return float(F(math.floor(abs(n) + F(1, 2))) * (1 if n >= 0 else -1) / 100)


def K(item):
    return F(Decimal(repr(item['k'])))


class Flight:
    """what is known of a flight, filled step by step"""


def clean_row(grades, absent, rul, setg, m):
    """an item's row of the clean table: what is used of each seat (a number, GAP, or None where
    a grade is missing) and why, whether a hard zero stands, whether grades are missing, and
    whether nobody saw the item and nothing was decided"""
    J = len(grades)
    seen = [not absent[j] and grades[j] not in ('A', '') for j in range(J)]
    n = sum(seen)
    gv = [grades[j] if seen[j] else None for j in range(J)]
    h = sum(g == 'HZ' for g in gv)
    z = sum(g in ('HZ', 'PZ') or (g is not None and num(g) == 0) for g in gv)
    missing = any(not absent[j] and grades[j] == '' for j in range(J))
    confirmed = False
    hz = None
    if 'hard-zero-confirmed' in rul:
        confirmed = True
    elif 'hard-zero-overruled' in rul:
        hz = (GAP, 'hard zero overruled')
    elif h > 0:
        maj = 2 * h > n if m['hard_zero_majority'] == 'more-than-half' else 2 * h >= n
        if h >= 2 and maj:
            confirmed = True
        elif 2 * z > n:
            hz = (F(0), 'zero by majority')
        else:
            hz = (GAP, 'hard zero not upheld')
    if confirmed:
        return [F(0)] * J, ['hard zero confirmed'] * J, True, missing, False
    if 'perception-zero-confirmed' in rul:
        pz = (F(0), 'perception zero confirmed')
    elif 'perception-zero-overruled' in rul:
        pz = (GAP, 'perception zero overruled')
    elif m['perception_zero'] == 'majority' and 2 * z < n:
        pz = (GAP, 'perception zero not upheld')
    else:
        pz = (F(0), '')
    used, why = [], []
    for j in range(J):
        if absent[j]:
            u, r = GAP, 'seat absent'
        elif grades[j] == '':
            u, r = None, ''
        elif grades[j] == 'A':
            u, r = GAP, 'not seen'
        elif grades[j] == 'HZ':
            u, r = hz
        elif grades[j] == 'PZ':
            u, r = pz
        else:
            u, r = num(grades[j]), ''
        used.append(u)
        why.append(r)
    unresolved = False
    if all(u == GAP for u in used):
        if setg is not None:
            used, why = [F(Decimal(setg))] * J, ['grade set'] * J
        else:
            unresolved = True
    return used, why, False, missing, unresolved


def load(prog, m):
    """a programme's flights with their clean tables"""
    out = []
    panel = prog['panel']
    J = len(panel)
    for fl in prog['flights']:
        f = Flight()
        out.append(f)
        f.pilot = fl['pilot']
        f.status = fl['status']
        f.out = f.status in ('withdrawn', 'not-flown', 'disqualified')
        seq = fl.get('sequence') or prog.get('sequence') or {'items': []}
        f.items = seq['items']
        f.k = [K(i) for i in f.items]
        f.pen = sum(F(Decimal(repr(p['points']))) * p['count'] for p in fl.get('penalties') or [])
        sheets = {s['judge']: s for s in fl.get('sheets') or []}
        f.absent = [bool(sheets.get(j, {}).get('absent')) for j in panel]
        R = len(f.items)
        f.g = [
            [
                (
                    sheets[j]['grades'][i]
                    if j in sheets and i < len(sheets[j].get('grades') or [])
                    else ''
                )
                for j in panel
            ]
            for i in range(R)
        ]
        rul = [set() for _ in range(R)]
        setg = [None] * R
        for r in fl.get('rulings') or []:
            i = r['item'] - 1
            if r['ruling'] == 'grade-set':
                setg[i] = r['grade']
            else:
                rul[i].add(r['ruling'])
        f.u, f.why, f.zero = [], [], []
        f.complete, f.unresolved = True, []
        for i in range(R):
            u, w, z, missing, unres = clean_row(f.g[i], f.absent, rul[i], setg[i], m)
            f.u.append(u)
            f.why.append(w)
            f.zero.append(z)
            if missing:
                f.complete = False
            if unres:
                f.unresolved.append(i + 1)
        f.graded = [
            not f.absent[j] and any(f.g[i][j] not in ('A', '') for i in range(R)) for j in range(J)
        ]
        f.fit = not f.out and f.status == 'flown' and f.complete and not f.unresolved
        if f.status != 'flown':
            f.complete = False
            f.unresolved = []
        f.raw = [
            sum(f.k[i] * (num(f.g[i][j]) or 0) for i in range(R) if not f.absent[j])
            for j in range(J)
        ]
    return out


def mean_of(vals):
    return sum(vals) / F(len(vals))


def do_mean(fs, J, trim=0):
    """the mean, or with trim the trimmed mean: scores, and what each seat says"""
    for f in fs:
        tot = F(0)
        f.used = []
        f.trimmed = [[False] * J for _ in f.items]
        for i, row in enumerate(f.u):
            cells = sorted((row[j], j) for j in range(J) if row[j] != GAP)
            keep = cells
            if trim and len(cells) - 2 * trim >= 3:
                keep = cells[trim : len(cells) - trim]
                for v, j in cells[:trim] + cells[len(cells) - trim :]:
                    f.trimmed[i][j] = True
            m = mean_of([v for v, _ in keep])
            tot += f.k[i] * m
            f.used.append([m if row[j] == GAP else row[j] for j in range(J)])
        f.panel_score = float(tot)
        f.total = [float(sum(f.k[i] * f.used[i][j] for i in range(len(f.k)))) for j in range(J)]
        f.disc = [False] * J
        f.weight = [1.0 / J] * J
        f.used_total = list(f.total)


def sd(x):
    """the standard deviation of a sample, 0 for one"""
    if len(x) < 2:
        return 0.0
    m = math.fsum(x) / len(x)
    return math.sqrt(math.fsum((v - m) ** 2 for v in x) / (len(x) - 1))


def avg(x):
    return math.fsum(x) / len(x)


def std_errors(fs, J):
    """a score's standard error, from how the seats' totals differ"""
    mean_j = []
    for j in range(J):
        t = [f.used_total[j] for f in fs if f.graded[j]]
        mean_j.append(avg(t) if t else 0)
    for f in fs:
        d = [f.used_total[j] - mean_j[j] for j in range(J) if f.graded[j] and not f.disc[j]]
        f.se = sd(d) / math.sqrt(len(d)) if len(d) > 1 else 0.0


def do_normalised(fs, J, discard):
    """each seat's totals brought to one mean and spread, and those far off discarded"""
    do_mean(fs, J)
    t = [[f.total[j] for j in range(J)] for f in fs]
    ret = [[f.graded[j] for j in range(J)] for f in fs]
    graded_n = [sum(f.graded[j] for f in fs) for j in range(J)]
    N = len(fs)

    def scale():
        mj, sj = {}, {}
        for j in range(J):
            x = [t[p][j] for p in range(N) if ret[p][j]]
            if x:
                mj[j] = avg(x)
                sj[j] = sd(x)
            if x and max(x) == min(x):
                sj[j] = 0.0
        M = avg(list(mj.values())) if mj else 0
        S = math.sqrt(avg([s * s for s in sj.values()])) if sj else 0
        z = [[0.0] * J for _ in range(N)]
        for p in range(N):
            for j in range(J):
                if fs[p].graded[j] and j in mj:
                    d = t[p][j] - mj[j]
                    z[p][j] = M + (d * S / sj[j] if sj[j] > 0 else d)
        return z

    for _ in range(100):
        z = scale()
        any_ = False
        for p in range(N):
            x = [z[p][j] for j in range(J) if ret[p][j]]
            if len(x) < 4:
                continue
            m, d = avg(x), sd(x)
            best = None
            for j in range(J):
                if not ret[p][j]:
                    continue
                left = sum(ret[q][j] for q in range(N)) - 1
                if 2 * left < graded_n[j]:
                    continue
                e = abs(z[p][j] - m)
                if best is None or e > best[0] + 1e-9 * max(1, e):
                    best = (e, j)
            if best and best[0] > discard * d + 1e-12 * abs(m):
                ret[p][best[1]] = False
                any_ = True
        if not any_:
            break
    z = scale()
    for p, f in enumerate(fs):
        x = [z[p][j] for j in range(J) if ret[p][j]]
        if x:
            f.panel_score = avg(x)
        f.used_total = [z[p][j] if f.graded[j] else 0.0 for j in range(J)]
        f.disc = [not ret[p][j] for j in range(J)]
    std_errors(fs, J)


def item_class(it):
    if it.get('class'):
        return it['class']
    fam = []
    for e in it.get('elements') or []:
        fam.append([int(x) for x in e.split('.')])

    def has(a, b):
        return any(len(x) > 1 and x[0] == a and x[1] == b for x in fam)

    if has(9, 11) or has(9, 12):
        return 'spin'
    if has(9, 9) or has(9, 10):
        return 'flick'
    if any(x[0] == 6 for x in fam):
        return 'tailslide'
    if any(x[0] == 2 for x in fam) and any(x[0] == 9 for x in fam):
        return 'rolling-turn'
    return 'general'


def groups(fs, kind, group_min):
    """the groups in which seats are compared: lists of (flight, item), both from 0"""
    if kind in ('known', 'unknown'):
        R = len(fs[0].items)
        return [[(p, i) for p in range(len(fs))] for i in range(R)]
    cls, over = {}, {}
    for p, f in enumerate(fs):
        o = 0
        for i, it in enumerate(f.items):
            if it['kind'] == 'overall':
                over.setdefault(o, []).append((p, i))
                o += 1
            else:
                cls.setdefault(item_class(it), []).append((p, i))
    gen = cls.pop('general', [])
    for c in sorted(cls):
        if len(cls[c]) < group_min:
            gen = gen + cls.pop(c)
    if gen and len(gen) < group_min and cls:
        allr = gen + [r for c in cls for r in cls[c]]
        cls = {}
        gen = allr
    if gen:
        cls['general'] = gen
    out = []
    for c, rows in cls.items():
        rows = sorted(rows, key=lambda r: (fs[r[0]].k[r[1]], r[0], r[1]))
        n = max(1, len(rows) // group_min)
        q, rem = divmod(len(rows), n)
        at = 0
        for g in range(n):
            ln = q + (1 if g < rem else 0)
            out.append(rows[at : at + ln])
            at += ln
    return out + [over[o] for o in sorted(over)]


def clamp(x, lo, hi):
    return lo if x < lo else hi if x > hi else x


def consensus(fs, J, kind, m):
    """the consensus fit; False where there is too little to fit"""
    infit = set()
    for p, f in enumerate(fs):
        for i, row in enumerate(f.u):
            obs = [row[j] for j in range(J) if row[j] != GAP]
            if not f.zero[i] and any(v != 0 for v in obs):
                infit.add((p, i))
    seats = [j for j in range(J) if any(fs[p].u[i][j] != GAP for p, i in infit)]
    if len(fs) < 5 or len(seats) < 4:
        return False
    G = [[r for r in g if r in infit] for g in groups(fs, kind, m['group_min'])]
    G = [g for g in G if g]
    rows = [r for g in G for r in g]
    y = {
        (r, j): float(fs[r[0]].u[r[1]][j])
        for r in rows
        for j in range(J)
        if fs[r[0]].u[r[1]][j] != GAP
    }
    cells = list(y)
    gof = {r: gi for gi, g in enumerate(G) for r in g}
    cg = [[[r for r in g if (r, j) in y] for j in range(J)] for g in G]
    rowseats = {r: [j for j in range(J) if (r, j) in y] for r in rows}
    if m['style']:
        mm = [
            [avg([y[r, j] for r in cg[gi][j]]) if cg[gi][j] else None for j in range(J)]
            for gi in range(len(G))
        ]
        s0 = max(0.25, statistics.median([abs(y[c] - mm[gof[c[0]]][c[1]]) for c in cells]) / 0.6745)
        S = {}
        for j in seats:
            d = sum(len(cg[gi][j]) - 1 for gi in range(len(G)) if cg[gi][j])
            q = math.fsum(
                clamp(y[r, j] - mm[gi][j], -3 * s0, 3 * s0) ** 2
                for gi in range(len(G))
                for r in cg[gi][j]
            )
            S[j] = math.sqrt(q / d) if d > 0 else 0.0
            if S[j] < 1e-9:
                S[j] = 0.0
        pos = [s * s for s in S.values() if s > 0]
        RS = math.sqrt(avg(pos)) if pos else 0
        MG = [avg([x for x in mm[gi] if x is not None]) for gi in range(len(G))]
        z = {}
        for (r, j), v in y.items():
            gi = gof[r]
            z[r, j] = MG[gi] + (v - mm[gi][j]) * (clamp(RS / S[j], 0.5, 2) if S[j] > 0 else 1)
    else:
        z = dict(y)
    a = {r: statistics.median([z[r, j] for j in rowseats[r]]) for r in rows}
    w = {j: 1.0 for j in seats}
    h = {c: 1.0 for c in cells}
    fseats = {}
    for r, j in cells:
        fseats.setdefault((r[0], j), []).append(r)
    f = {pj: 1.0 for pj in fseats}
    n = {j: sum(1 for c in cells if c[1] == j) for j in seats}
    Gj = {j: sum(1 for gi in range(len(G)) if cg[gi][j]) for j in seats}
    Ibar = avg([len(x.items) for x in fs])
    Kf = [[float(k) for k in x.k] for x in fs]
    for rnd in range(1, 501):
        b = {}
        for gi in range(len(G)):
            here = [j for j in seats if cg[gi][j]]
            for j in here:
                den = math.fsum(h[r, j] * f[r[0], j] for r in cg[gi][j])
                b[gi, j] = (
                    math.fsum(h[r, j] * f[r[0], j] * (z[r, j] - a[r]) for r in cg[gi][j]) / den
                    if den > 0
                    else 0.0
                )
            sw = math.fsum(w[j] for j in here)
            c0 = math.fsum(w[j] * b[gi, j] for j in here) / sw
            for j in here:
                b[gi, j] -= c0
        move = 0.0
        for r in rows:
            den = math.fsum(w[j] * h[r, j] * f[r[0], j] for j in rowseats[r])
            if den > 0:
                new = (
                    math.fsum(
                        w[j] * h[r, j] * f[r[0], j] * (z[r, j] - b[gof[r], j]) for j in rowseats[r]
                    )
                    / den
                )
                move = max(move, abs(new - a[r]))
                a[r] = new
        e = {(r, j): z[r, j] - b[gof[r], j] - a[r] for (r, j) in cells}
        if rnd > 1 and move < 1e-9:
            break
        if rnd <= 100:
            sg = max(0.25, statistics.median([abs(x) for x in e.values()]) / 0.6745)
            sw = math.fsum(w.values())
            v = {}
            for j in seats:
                q = math.fsum(clamp(e[c], -3 * sg, 3 * sg) ** 2 for c in cells if c[1] == j)
                v[j] = q / max(1, n[j] - Gj[j]) / (1 - w[j] / sw)
            lo = max(0.0625, 0.15 * statistics.median(list(v.values())))
            v = {j: max(x, lo) for j, x in v.items()}
            if m['seat_weights'] == 'measured':
                mi = avg([1 / x for x in v.values()])
                w = {j: (w[j] + clamp(1 / v[j] / mi, 0.25, 2)) / 2 for j in seats}
        c_ = float(m['outlier'])
        for r, j in cells:
            t = abs(e[r, j]) / (c_ * math.sqrt(v[j]))
            h[r, j] = (1 - t * t) ** 2 if t < 1 else 0.0
        rr = {}
        for (p, j), rs in fseats.items():
            den = math.fsum(Kf[p][r[1]] * h[r, j] for r in rs)
            rr[p, j] = (
                math.fsum(Kf[p][r[1]] * h[r, j] * e[r, j] for r in rs) / den if den > 0 else 0.0
            )
        if rnd <= 100:
            s = max(
                0.25 / math.sqrt(Ibar), statistics.median([abs(x) for x in rr.values()]) / 0.6745
            )
        f = {
            pj: (min(1.0, float(m['lean']) * s / abs(x)) if x != 0 else 1.0) for pj, x in rr.items()
        }
    sw = math.fsum(w.values())
    for p, x in enumerate(fs):
        x.used, x.fitted, x.trust, x.outl = [], [], [], []
        var = 0.0
        score = 0.0
        for i, row in enumerate(x.u):
            r = (p, i)
            if r not in infit:
                x.used.append([0.0] * J)
                x.fitted.append(None)
                x.trust.append(None)
                x.outl.append([False] * J)
                continue
            ar = clamp(a[r], 0, 10)
            score += Kf[p][i] * ar
            x.fitted.append(a[r])
            x.used.append([z[r, j] - b[gof[r], j] if (r, j) in y else ar for j in range(J)])
            tr = [h[r, j] * f[p, j] if (r, j) in y else 0.0 for j in range(J)]
            x.trust.append(tr)
            x.outl.append([(r, j) in y and tr[j] < 0.5 for j in range(J)])
            om = {j: w[j] * tr[j] for j in rowseats[r]}
            so = math.fsum(om.values())
            if so > 0:
                var += Kf[p][i] ** 2 * math.fsum((om[j] / so) ** 2 * v[j] for j in om)
        x.panel_score = score
        x.se = math.sqrt(var)
        x.weight = [w[j] / sw if j in w else 0.0 for j in range(J)]
        x.used_total = [
            math.fsum(Kf[p][i] * x.used[i][j] for i in range(len(x.items))) for j in range(J)
        ]
        x.disc = [False] * J
    return True


def score_programme(prog, entries, cut_out=()):
    m = dict(DEF)
    m.update({k: v for k, v in prog['method'].items() if v is not None})
    J = len(prog['panel'])
    al = load(prog, m)
    fs = [f for f in al if f.fit]
    name = m['name']
    fallback = ''
    ok = False
    if name == 'trimmed-mean':
        if J - 2 * m['trim'] >= 3:
            do_mean(fs, J, m['trim'])
            std_errors(fs, J)
            ok = True
    elif name == 'normalised':
        if J >= 4 and len(fs) >= 5:
            do_normalised(fs, J, m['discard'])
            ok = True
    elif name == 'consensus':
        ok = len(fs) > 0 and consensus(fs, J, prog['kind'], m)
    if not ok:
        if name != 'mean':
            fallback = 'mean'
        do_mean(fs, J)
        std_errors(fs, J)
    fitted = ok and name == 'consensus'
    res = []
    for f in al:
        d = {
            'pilot': f.pilot,
            'status': f.status,
            'complete': f.complete,
            'unresolved': f.unresolved,
            'cells': [],
        }
        res.append(d)
        if f.out:
            d['score'] = 0.0
            d['percent'] = 0.0
        if not f.fit:
            continue
        d['panel_score'] = f.panel_score
        d['standard_error'] = f.se
        d['penalties'] = float(f.pen)
        d['score'] = round2(max(0.0, f.panel_score - float(f.pen)))
        d['percent'] = (
            round2exact(F(Decimal(repr(d['score']))) * 100 / (10 * sum(f.k))) if sum(f.k) else 0
        )
        d['seats'] = [
            {
                'judge': prog['panel'][j],
                'raw_total': float(f.raw[j]),
                'used_total': f.used_total[j],
                'weight': f.weight[j],
                'discarded': f.disc[j],
            }
            for j in range(J)
        ]
        for i in range(len(f.items)):
            for j in range(J):
                g = '' if f.absent[j] and not f.g[i][j] else f.g[i][j]
                u = f.used[i][j]
                why = f.why[i][j]
                if not why and not fitted and getattr(f, 'trimmed', None) and f.trimmed[i][j]:
                    why = 'trimmed'
                if not why and fitted and f.outl[i][j]:
                    why = 'outlier'
                asg = 0 if g == 'PZ' else num(g)
                if not why and asg is not None and (u == asg):
                    continue
                c = {
                    'item': i + 1,
                    'judge': prog['panel'][j],
                    'grade': g if num(g) is None else '%.1f' % num(g),
                    'used': float(u),
                    'reason': why,
                }
                if fitted and f.fitted[i] is not None:
                    c['weight'] = f.trust[i][j]
                    c['fitted'] = f.fitted[i]
                d['cells'].append(c)
    can = [d for d in res if entries[d['pilot']].get('ranked', True) and d['pilot'] not in cut_out]
    have = [d['score'] for d in can if 'panel_score' in d]
    for d in res:
        if 'score' not in d:
            continue
        if d not in can:
            d['rank'] = None
        elif 'panel_score' in d:
            d['rank'] = 1 + sum(s > d['score'] for s in have)
        else:
            d['rank'] = len(have) + 1
    state = 'complete' if all(f.out or f.fit for f in al) else 'incomplete'
    return {'id': prog['id'], 'method': name, 'fallback': fallback, 'state': state, 'flights': res}


def D(x):
    return Decimal(repr(x))


def total_of(comb, progs, by):
    """the total over programmes, from a pilot's scores and percentages in them"""
    how = comb.get('by', 'sum')
    total = 0.0
    for pid in progs:
        if pid not in by:
            continue
        score, percent = by[pid]
        if how == 'sum':
            total += score
        elif how == 'sum-percent':
            total += percent
        else:
            total += percent * comb['weights'].get(pid, 0)
    return round2(total)


def score_category(cat):
    entries = {e['pilot']: e for e in cat['entries']}
    comb = cat.get('combine') or {}
    cut_out = {}  # pilot -> index of the cut
    progs = []
    counting = []
    by = {e: {} for e in entries}
    pub = {e: {} for e in entries}
    for pi, prog in enumerate(cat['programmes']):
        r = score_programme(prog, entries, cut_out)
        progs.append(r)
        counts = prog.get('counts') is not False
        if counts:
            counting.append(prog['id'])
        for d in r['flights']:
            if 'score' in d:
                pub[d['pilot']][prog['id']] = d['score']
                if counts and d['pilot'] not in cut_out:
                    by[d['pilot']][prog['id']] = (d['score'], d['percent'])
        n = prog.get('cut') or 0
        if n and counts:
            cand = [
                (total_of(comb, counting, by[p]), p)
                for p, e in entries.items()
                if e.get('ranked', True) and p not in cut_out
            ]
            cand.sort(key=lambda x: -x[0])
            if len(cand) > n:
                edge = cand[n - 1][0]
                for t, p in cand:
                    if t < edge:
                        cut_out[p] = pi
    overall = []
    key = {}
    for p, e in entries.items():
        t = total_of(comb, counting, by[p])
        d = {'pilot': p, 'total': t, 'by_programme': pub[p]}
        key[p] = (cut_out.get(p, 10**6), t) + tuple(
            by[p].get(x, (0.0, 0))[0] for x in comb.get('tie_break') or []
        )
        overall.append(d)
    for d in overall:
        p = d['pilot']
        if not entries[p].get('ranked', True):
            d['rank'] = None
        else:
            d['rank'] = 1 + sum(
                key[q] > key[p] for q, e in entries.items() if e.get('ranked', True)
            )
    teams = {}
    for d in overall:
        t = entries[d['pilot']].get('team')
        if t and d['rank'] is not None:
            teams.setdefault(t, []).append(d)
    out = []
    for t, ms in teams.items():
        ms = sorted(ms, key=lambda d: d["rank"])
        nb = comb.get('team_best') or 0
        if nb:
            ms = ms[:nb]
        tot = round2exact(sum(F(D(d['total'])) for d in ms))
        out.append({'team': t, 'total': tot, 'pilots': [d['pilot'] for d in ms]})
    for t in out:
        t['rank'] = 1 + sum(x['total'] > t['total'] for x in out)
    return {'id': cat['id'], 'programmes': progs, 'overall': overall, 'teams': out}


def score(b):
    return {
        'format': 'halfpoint-results/1',
        'categories': [score_category(c) for c in b['categories']],
    }


def main():
    for line in sys.stdin:
        bundle = json.loads(line)
        print(json.dumps({'bundle': bundle, 'results': score(bundle)}, separators=(',', ':')))


if __name__ == '__main__':
    main()
