/** The words of reading what tablets hand over as QR codes, in German. */
import type { scanWords } from './en-scan';

const plural = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

const stored = (n: number) => plural(n, 'Eintrag ist gespeichert', 'Einträge sind gespeichert');

const words: typeof scanWords = {
  scan: {
    title: 'Codes eines Tablets einlesen',
    lead: 'Für ein Tablet, das kein Netz mehr hat: darauf „Über dieses Tablet“ öffnen und Wartendes als QR-Codes zeigen. Diese Kamera darauf richten, in beliebiger Reihenfolge. Was gelesen ist, wird sofort gespeichert; was zweimal gelesen wird, zählt einmal.',
    camera: 'Kamera dieses Geräts verwenden',
    stop: 'Kamera anhalten',
    noCamera:
      'Es gibt keine Kamera, die diese Seite verwenden darf. Bitte die Codes mit einem anderen Gerät aufnehmen und die Bilder unten auswählen.',
    pictures: 'Oder Bilder der Codes auswählen',
    none: (name: string) =>
      `${name}: Darin ist kein Code eines Tablets zu lesen. Bitte näher und gerade von vorn aufnehmen.`,
    read: (there: number, of: number) => `${there} von ${plural(of, 'Code', 'Codes')} gelesen`,
    going: 'Dieser geht jetzt ins Büro …',
    stored: (n: number, before: number) =>
      before === 0
        ? `${stored(n)}.`
        : `${stored(n)}; davon ${before === 1 ? 'war' : 'waren'} ${before} schon vorher hier.`,
    refused: (n: number) =>
      `${plural(n, 'Eintrag konnte', 'Einträge konnten')} nicht angenommen werden; das Tablet behält ${n === 1 ? 'ihn' : 'sie'}.`,
    broken: 'Die Codes gehören nicht zusammen. Bitte vom ersten an neu einlesen.',
    again: 'Noch einmal senden',
    list: 'Was gelesen wurde',
    tablet: (n: number) => `Tablet ${n}`,
  },
};

export default words;
