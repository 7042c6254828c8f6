"""Invented contests, drawn at random to be as odd as the bundle allows: codes, gaps,
absent seats, rulings, cuts, ties, teams, judges who give everybody the same. Takes the
first and the last seed, and writes those that are small, a bundle a line.
"""

import json
import random
import sys

LARGEST = 16000  # bytes of a bundle
LARGEST_PLAIN = 3000  # where no programme is large enough for more than a mean


def grade(r, base, style):
    if style == 'equal':
        return '7.0'
    if style == 'tens':
        return '10.0'
    if style == 'zeros':
        return '0.0'
    if style == 'coarse':
        return r.choice(['6.0', '7.0', '8.0'])
    if style == 'two':
        return r.choice(['0.0', '10.0'])
    if style == 'half':
        return r.choice(['6.5', '7', '7.5', '10', '0'])
    x = base + r.gauss(0, {'norm': 0.7, 'wide': 3}[style])
    return '%.1f' % (round(2 * max(0, min(10, x))) / 2)


CLASS = ['general', 'flick', 'spin', 'tailslide', 'rolling-turn']
ELS = [
    '1.1.1.1',
    '2.2.1.1',
    '9.1.3.2',
    '9.9.3.4',
    '9.10.1.1',
    '9.11.1.4',
    '9.12.1.6',
    '6.2.1.1',
    '5.2.1.1',
    '7.4.1.1',
    '8.6.1.1',
    '9.2.3.4',
]


def sequence(r, same=False):
    its = []
    nf = r.choice([1, 1, 2, 3, 5, 8, 10])
    no = r.choice([0, 0, 0, 1, 1, 2, 3])
    kk = r.choice(['int', 'dec', 'edge'])
    for i in range(nf):
        k = {
            'int': r.randint(1, 60),
            'dec': r.randint(1, 400) / 10,
            'edge': r.choice([0.1, 100, 1, 99.9, 0.1]),
        }[kk]
        d = {'kind': 'figure', 'k': k, 'name': 'F%d' % i}
        x = r.random()
        if x < 0.7:
            d['elements'] = [r.choice(ELS) for _ in range(r.choice([1, 1, 2, 3]))]
        if r.random() < 0.2:
            d['class'] = r.choice(CLASS)
        its.append(d)
    for i in range(no):
        its.append({'kind': 'overall', 'k': r.choice([6, 10.5, 40, 0.1]), 'name': 'O%d' % i})
    if nf == 0 and no == 0:
        return sequence(r)
    if r.random() < 0.05:
        r.shuffle(its)
    return {'items': its}


def method(r, J):
    m = {
        'name': r.choice(
            [
                'mean',
                'trimmed-mean',
                'normalised',
                'normalised',
                'consensus',
                'consensus',
                'consensus',
            ]
        )
    }

    def put(k, vals, p=0.25):
        if r.random() < p:
            m[k] = r.choice(vals)

    put('trim', [1, 2, 3, 0])
    put('discard', [1.645, 1.2, 1.0, 1.4, 2, 0.5, 0.1, 100, 1.5], 0.6)
    put('style', [False, True], 0.4)
    put('seat_weights', ['equal', 'measured'], 0.4)
    put('outlier', [6, 4.685, 1, 2, 3, 1000, 1.5], 0.4)
    put('lean', [2, 1.5, 0.5, 0.1, 1000, 1], 0.4)
    put('group_min', [1, 2, 3, 5, 11, 40, 1000], 0.5)
    put('hard_zero_majority', ['more-than-half', 'half-or-more'], 0.5)
    put('perception_zero', ['majority', 'as-graded'], 0.5)
    return m


def contest(seed):
    r = random.Random(seed)
    J = r.choice([1, 2, 3, 4, 4, 5, 5, 6, 7, 8, 10, 12])
    P = r.choice([1, 2, 3, 4, 5, 5, 6, 6, 8, 10, 12, 20])
    if r.random() < 0.03:
        P = 0
    judges = [
        {'id': 'j%d' % (i + 1), 'name': 'J%d' % i, 'affiliation': r.choice('ABC')} for i in range(J)
    ]
    pilots = [
        {'id': 'p%d' % (i + 1), 'name': 'P%d' % i, 'affiliation': r.choice('ABC'), 'aircraft': 'X'}
        for i in range(P)
    ]
    cats = []
    for ci in range(r.choice([1, 1, 1, 2])):
        cats.append(category(r, 'c%d' % ci, judges, pilots))
    return {
        'format': 'halfpoint-bundle/1',
        'contest': {
            'name': 'T %d' % seed,
            'place': 'N',
            'starts': '2026-06-12',
            'ends': '2026-06-14',
        },
        'judges': judges,
        'pilots': pilots,
        'categories': cats,
    }


def category(r, cid, judges, pilots):
    ps = [p['id'] for p in pilots]
    r.shuffle(ps)
    if r.random() < 0.5 and len(ps) > 6:
        ps = ps[: r.randint(5, len(ps))]
    un = r.choice([0, 0, 0.2, 1 if r.random() < 0.1 else 0])
    tm = r.choice([0, 0.6, 1])
    entries = []
    for p in ps:
        e = {'pilot': p, 'ranked': r.random() >= un}
        if r.random() < tm:
            e['team'] = r.choice(['K', 'L', 'M', 'N'])
        entries.append(e)
    kinds = r.choice(
        [
            ['known'],
            ['known', 'free'],
            ['free'],
            ['freestyle'],
            ['known', 'free', 'unknown'],
            ['known', 'unknown', 'free', 'freestyle'],
            ['unknown', 'known'],
        ]
    )
    by = r.choice(['sum', 'sum-percent', 'weighted-percent'])
    comb = {
        'by': by,
        'tie_break': r.sample(kinds, r.randint(0, len(kinds))),
        'team_best': r.choice([1, 2, 3, 3, 10]),
    }
    if by == 'weighted-percent':
        n = len(kinds)
        comb['weights'] = dict(
            zip(
                kinds,
                {
                    1: [1],
                    2: r.choice([[0.4, 0.6], [0, 1], [0.125, 0.875]]),
                    3: r.choice([[0.2, 0.3, 0.5], [0.333, 0.333, 0.334]]),
                    4: r.choice([[0.1, 0.2, 0.3, 0.4], [0.25, 0.25, 0.25, 0.25]]),
                }[n],
            )
        )
    tiey = r.random() < 0.3  # everyone coarse: many ties
    progs = []
    for k in kinds:
        progs.append(programme(r, k, judges, ps, tiey))
    return {'id': cid, 'name': cid, 'combine': comb, 'entries': entries, 'programmes': progs}


def programme(r, kind, judges, ps, tiey):
    m = method(r, len(judges))
    panel = [j['id'] for j in judges]
    r.shuffle(panel)
    if r.random() < 0.3:
        panel = panel[: r.randint(1, len(panel))]
    J = len(panel)
    style = r.choice(
        ['norm'] * 5 + ['wide', 'equal', 'coarse', 'half', 'two', 'zeros', 'tens', 'norm', 'norm']
    )
    if tiey:
        style = r.choice(['coarse', 'equal', 'coarse', 'half'])
    own = kind in ('free', 'freestyle')
    seq = sequence(r)
    if tiey:
        seq = {'items': [dict(i, k=10) for i in seq['items'][:3]]}
    d = {'id': kind, 'name': kind, 'kind': kind, 'method': m, 'panel': panel, 'flights': []}
    if r.random() < 0.25:
        d['cut'] = r.choice([0, 1, 2, 3, 5])
    if r.random() < 0.15:
        d['counts'] = r.choice([True, False])
    if not own:
        d['sequence'] = seq
    pa = r.choice([0, 0, 0.03, 0.1, 0.4])
    pz = r.choice([0, 0.02, 0.1, 0.3])
    pabs = r.choice([0, 0, 0.05, 0.2])
    prul = r.choice([0, 0.05, 0.3])
    pst = r.choice([0, 0, 0, 0.1, 0.3])
    pmiss = r.choice([0, 0, 0, 0, 0.01, 0.1])
    pgone = r.choice([0, 0, 0.1])
    ppen = r.choice([0, 0.1, 0.4])
    awayall = r.choice(panel) if r.random() < 0.08 else None
    fl = list(ps)
    r.shuffle(fl)
    bias = {j: r.gauss(0, 0.4) for j in panel}
    sc = {j: r.choice([0.7, 1, 1, 1.4]) for j in panel}
    odd = {j: r.choice(['const', 'copy', 'tens'] + ['no'] * 7) for j in panel}
    for p in fl:
        if r.random() < pgone:
            continue
        s = sequence(r) if own else seq
        if own and tiey:
            s = {'items': [dict(i, k=10) for i in s['items'][:3]]}
        if own and r.random() < 0.5 and d['flights'] and d['flights'][0].get('sequence'):
            s = json.loads(json.dumps(d['flights'][0]['sequence']))
        st = 'flown'
        if r.random() < pst:
            st = r.choice(['withdrawn', 'not-flown', 'disqualified', 'scheduled'])
        f = {'pilot': p, 'status': st, 'sheets': [], 'rulings': [], 'penalties': []}
        d['flights'].append(f)
        if own:
            f['sequence'] = s
        if st != 'flown' and r.random() < 0.6:
            if own and r.random() < 0.5:
                f.pop('sequence')
            continue
        n = len(s['items'])
        rows = []
        for i in range(n):
            base = max(0, min(10, r.gauss(7, 1.2)))
            row = []
            zr = r.random() < pz
            z = r.choice(['HZ', 'PZ', '0.0', 'mix', 'one'])
            al = r.random() < pa * 0.3
            for j in panel:
                g = (
                    grade(r, base, style)
                    if style not in ('norm', 'wide')
                    else grade(r, 7 + (base - 7) * sc[j] + bias[j], style)
                )
                if odd.get(j) == 'const':
                    g = '7.0'
                elif odd.get(j) == 'tens':
                    g = r.choice(['10.0', '9.5'])
                elif odd.get(j) == 'copy' and row:
                    g = row[0]
                if zr:
                    q = r.random()
                    if z == 'mix' and q < 0.7:
                        g = r.choice(['HZ', 'PZ', '0.0', 'A'])
                    elif z == 'one':
                        g = r.choice(['HZ', 'PZ']) if j == panel[0] else g
                    elif z in ('HZ', 'PZ', '0.0') and q < r.choice([0.3, 0.5, 0.8, 1]):
                        g = z
                if al or r.random() < pa * 0.5:
                    g = 'A'
                if r.random() < pmiss:
                    g = ''
                row.append(g)
            rows.append(row)
            if r.random() < prul:
                rr = r.sample(['hz', 'pz', 'set'], r.choice([1, 1, 1, 2, 3]))
                if 'hz' in rr:
                    f['rulings'].append(
                        {
                            'item': i + 1,
                            'ruling': r.choice(['hard-zero-confirmed', 'hard-zero-overruled']),
                        }
                    )
                if 'pz' in rr:
                    f['rulings'].append(
                        {
                            'item': i + 1,
                            'ruling': r.choice(
                                ['perception-zero-confirmed', 'perception-zero-overruled']
                            ),
                        }
                    )
                if 'set' in rr:
                    f['rulings'].append(
                        {
                            'item': i + 1,
                            'ruling': 'grade-set',
                            'grade': r.choice(['6.5', '0.0', '10', '7']),
                        }
                    )
        for jj, j in enumerate(panel):
            ab = r.random() < pabs or j == awayall
            sh = {'judge': j, 'absent': ab, 'grades': [row[jj] for row in rows]}
            if ab and r.random() < 0.7:
                sh['grades'] = []
            if not ab and r.random() < pmiss * 0.3:
                continue
            f['sheets'].append(sh)
        if r.random() < 0.03:
            for sh in f['sheets']:
                sh['absent'] = True
            if r.random() < 0.6:
                f['rulings'] = [
                    {
                        'item': i + 1,
                        'ruling': r.choice(['grade-set', 'hard-zero-confirmed']),
                        'grade': '6.0',
                    }
                    for i in range(n)
                ]
            for x in f['rulings']:
                if x['ruling'] != 'grade-set':
                    x.pop('grade', None)
        r.shuffle(f['sheets'])
        if r.random() < ppen:
            for _ in range(r.choice([1, 2])):
                f['penalties'].append(
                    {
                        'kind': r.choice(['low', 'out']),
                        'count': r.choice([0, 1, 2, 5]),
                        'points': r.choice([5, 50, 10.5, 100000, 0]),
                    }
                )
    return d


def large_enough(bundle):
    """whether a programme has the five flights and four seats that most methods need"""
    programmes = [p for c in bundle['categories'] for p in c['programmes']]
    return any(len(p['flights']) >= 5 and len(p['panel']) >= 4 for p in programmes)


def main(first, last):
    for seed in range(int(first), int(last) + 1):
        bundle = contest(seed)
        line = json.dumps(bundle, separators=(',', ':'))
        if len(line) <= (LARGEST if large_enough(bundle) else LARGEST_PLAIN):
            print(line)


if __name__ == '__main__':
    main(*sys.argv[1:])
