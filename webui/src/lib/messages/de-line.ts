/**
 * The words of the line in German: the judge's tablet, the assistant's, the chief
 * judge's, and how a device is paired.
 */
import type { lineWords } from './en-line';

const plural = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

const codes: Record<string, string> = { HZ: 'harte Null', PZ: 'Wahrnehmungs\u00ADnull', A: 'nicht gesehen' };

/** A grade as it is said. */
const grade = (text: string) => codes[text] ?? text;

const places = { left: 'links', right: 'rechts', near: 'nah', far: 'fern' };

const muchToo = (place: string) =>
  place === places.near || place === places.far ? `viel zu ${place}` : `viel zu weit ${place}`;

const words: typeof lineWords = {
  line: {
    title: 'An der Linie',
    what: 'Seiten dieses Tablets',
    flight: (n: number) => `Flug ${n}`,
    attempt: (n: number) => `Versuch ${n}`,
    seat: (n: number) => `Sitz ${n}`,
    nextFlights: (numbers: number[]) => `als Nächstes ${numbers.join(', ')}`,
    where: (category: string, programme: string) => `${category} · ${programme}`,

    word: {
      saved: 'hier gespeichert',
      waiting: (n: number) => plural(n, 'wartet', 'warten'),
      all: 'alles im Büro',
      refused: (n: number) => `${plural(n, 'Eintrag', 'Einträge')} nicht angenommen`,
    },
    details: {
      heading: 'Dieses Tablet',
      open: 'Über dieses Tablet',
      close: 'Schließen',
      ownAnalysis: 'Ihre eigene Analyse',
      panelAnalysis: 'Wie einig das Panel ist',
      paired: (role: string, contest: string) => `Gekoppelt als ${role} bei ${contest}.`,
      made: (n: number) =>
        `${plural(n, 'Eintrag wurde', 'Einträge wurden')} hier gemacht. Alle bleiben hier, bis das Büro sie nach dem Wettbewerb freigibt.`,
      waiting: (n: number) =>
        n === 0
          ? 'Das Büro hat alle.'
          : `${plural(n, 'wartet hier und wird', 'warten hier und werden')} gesendet, wenn das Netz wieder da ist. Es ist nichts zu tun.`,
      former: (n: number) =>
        `${plural(n, 'Eintrag', 'Einträge')} aus einer früheren Kopplung ${n === 1 ? 'ist' : 'sind'} noch nicht im Büro. Was nicht von selbst hinausgeht, geht, sobald das Büro dieses Tablet noch einmal für jenen Platz koppelt.`,
      refused: 'Diese konnte das Büro nicht annehmen. Sie bleiben hier; bitte dem Büro melden.',
      kept: 'Der Browser behält, was hier eingegeben wird, bis er es entfernen soll.',
      notKept:
        'Dieser Browser kann entfernen, was hier gespeichert ist, wenn der Speicher des Geräts voll wird. Bitte die Seite auf den Startbildschirm legen und vorher die Wertungsbögen senden.',
      newer: 'Auf diesem Tablet liegt eine neuere Fassung dieser Seite. Bitte zwischen zwei Flügen laden.',
      loadNewer: 'Jetzt laden',
    },
    handOver: {
      open: 'Wartendes als QR-Codes zeigen',
      heading: 'Übergabe ohne Netz',
      why: (n: number) =>
        `${plural(n, 'Eintrag wartet', 'Einträge warten')} hier. Das Büro liest diese Codes mit einer beliebigen Kamera, in beliebiger Reihenfolge. Was zweimal gelesen wird, zählt einmal, und dieses Tablet behält alles.`,
      code: (n: number, of: number) => `Code ${n} von ${of}`,
      before: 'Voriger Code',
      next: 'Nächster Code',
      turning: 'Von selbst weiter',
      part: (n: number, of: number) =>
        `Teil ${n} von ${of}: den nächsten Teil zeigen, wenn dieser gelesen ist.`,
      nextPart: 'Nächster Teil',
      close: 'Codes schließen',
    },
    notice: {
      insecure:
        'Diese Seite ist nicht sicher (kein HTTPS): Ohne Netz behält der Browser hier kein Programm, und kein Gerät lässt sich koppeln. Bitte das Büro nach der sicheren Adresse fragen.',
      elsewhere:
        'Die Seite dieses Tablets ist in einem anderen Tab dieses Browsers offen. Bitte dort weiterarbeiten oder sie dort schließen.',
      twin: 'Für diesen Sitz ist noch ein Tablet gekoppelt.',
      turnedAway:
        'Das Büro nimmt dieses Tablet nicht mehr an: Es wurde entkoppelt, oder seine Sitzung ist abgelaufen. Was Sie eingeben, bleibt hier; bitte das Büro, es neu zu koppeln.',
      unkept: (why: string) =>
        `Was Sie angetippt haben, konnte hier nicht gespeichert werden (${why}). Nichts wurde festgehalten: bitte noch einmal tippen oder auf Papier schreiben.`,
      reopened: (why: string) => `Dieser Wertungsbogen wurde wieder geöffnet: ${why}`,
      conflict: (values: string) =>
        `Für diese Figur gibt es zwei Noten: ${values}. Bitte die antippen, die gilt.`,
      differ:
        'Zwei Unterschriften dieses Wertungsbogens stimmen nicht überein. Der Oberpunktrichter öffnet ihn wieder.',
      signed: 'Dieser Wertungsbogen ist unterschrieben. Der Oberpunktrichter kann ihn wieder öffnen.',
      absent: 'Dieser Sitz ist bei diesem Flug nicht besetzt.',
      interrupted:
        'Dieser Flug ist unterbrochen. Was eingegeben ist, bleibt; bitte auf den Oberpunktrichter warten.',
      sequenceMissing:
        'Die Figuren dieses Flugs sind noch nicht auf diesem Tablet. Bitte nach ihren Nummern werten oder auf das Netz warten.',
    },
    roles: {
      judge: 'Punktrichter',
      assistant: 'Assistent',
      chief: 'Oberpunktrichter',
      announcer: 'Sprecher',
    },
    reading: 'Wird geladen: was auf diesem Tablet gespeichert ist …',
    unpaired: 'Dieser Browser ist mit keinem Wettbewerb gekoppelt.',
    unpairedDo: 'Bitte den Link öffnen, den das Büro zeigt, oder seinen Code eintippen.',
    noPlan: 'Auf diesem Tablet ist noch nichts vom Wettbewerb.',
    noPlanDo: 'Es braucht einmal das Netz, vor dem ersten Flug.',

    grade,
    figure: (n: number) => `Figur ${n}`,
    k: (k: string) => `K ${k}`,
    keys: 'Noten',
    strip: 'Alle Figuren',
    stripItem: (n: number, what: string, given: string) =>
      `${n}, ${what}: ${given === '' ? 'noch keine Note' : grade(given)}`,
    nothingSaid: 'Eine Note antippen: Sie ist sofort gespeichert.',
    tookBack: 'zurückgenommen',
    takeBack: 'Zurücknehmen',
    offered: (mark: string, letters: number) =>
      `${plural(letters, 'Buchstabe', 'Buchstaben')} für die Position: Vorschlag ${mark}.`,

    remark: 'Bemerkung',
    remarkFor: (item: string) => `Bemerkung zu ${item}`,
    remarkDone: 'Fertig',
    remarkWords: [
      'zu früh',
      'zu spät',
      'abgeflacht',
      'nicht senkrecht',
      'überdreht',
      'zu wenig gedreht',
      'Richtung ungenau',
      'Fläche hängt',
      'Fassrolle',
      'Radien ungleich',
      'Linie davor kurz',
      'Linie danach kurz',
      'keine Linie dazwischen',
      'abgetrieben',
      'zu flach',
      'zu steil',
    ],
    remarkOwn: 'In eigenen Worten',
    places,
    placeSaid: (place: string, times: number) => (times === 2 ? muchToo(place) : place),

    whole: 'Ganzer Bogen',
    wholeOf: (n: number) => `Wertungsbogen von Flug ${n}`,
    missing: (numbers: number[]) =>
      numbers.length === 1
        ? `Figur ${numbers[0]} hat keine Note.`
        : `${numbers.length} Figuren haben keine Note.`,
    ready: 'Jede Figur hat eine Note. Zum Ändern eine antippen.',
    sign: (n: number) => `Flug ${n} unterschreiben`,
    back: 'Zurück zu den Figuren',

    between: {
      signed: (n: number) => `Flug ${n} ist unterschrieben.`,
      heading: 'Welcher Flug?',
      called: 'Der nächste Flug erscheint hier, wenn der Oberpunktrichter ihn aufruft.',
      radio: 'Kein Netz: die Nummer antippen, die Sie über Funk hören.',
      also: 'Oder die Nummer antippen, die Sie über Funk hören.',
      none: 'Für diesen Sitz ist kein Flug mehr übrig.',
      others: (programme: string) => `Andere Flüge: ${programme}`,
    },
    pair: {
      heading: 'Dieses Tablet koppeln',
      code: 'Code vom Büro',
      codeHint: 'Acht Zeichen, wie ACDE-3467',
      look: 'Nachsehen',
      looking: 'Das Büro wird gefragt …',
      offer: (role: string, contest: string) => `${role} bei ${contest}`,
      seat: (judge: string) => `Der Sitz von ${judge}`,
      take: 'Dieses Tablet koppeln',
      taking: 'Wird gekoppelt …',
      bad: 'Dieser Code oder Link gilt nicht: Vielleicht ist er vertippt, schon benutzt oder älter als 15 Minuten. Bitte das Büro um einen neuen.',
      slow: (detail: string) => `Von hier kamen zu viele falsche Codes. ${detail}`,
      away: 'Der Server ist nicht erreichbar. Nichts geht verloren: bitte noch einmal versuchen, wenn das Netz wieder da ist.',
      before: (role: string) =>
        `Dieser Browser ist jetzt als ${role} gekoppelt. Eine neue Kopplung tritt an deren Stelle; was hier wartet, wird noch für den bisherigen Sitz gesendet.`,
    },
    safety:
      'Nichts hier sagt, ob eine Figurenfolge sicher geflogen werden kann: Das entscheiden Regeln, Verantwortliche und Flughandbuch.',
  },
};

export default words;
