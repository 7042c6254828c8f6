/** The words of forms, in German: what is wrong with a field, and why the service would not do it. */
import type { refusalWords } from './en-refusal';

const words: typeof refusalWords = {
  field: {
    show: 'Zeigen',
    hide: 'Verbergen',
    is: (field: string, what: string) => `${field}: ${what}.`,
  },

  failed: {
    away: 'Der Server ist nicht erreichbar. Was Sie eingegeben haben, steht noch hier: Bitte noch einmal versuchen, wenn das Netz wieder da ist.',
    conflict: (why: string) => `Das ist nicht geschehen: ${why}.`,
    other: (status: number, detail: string) => `Der Server hat einen Fehler gemeldet (${status}): ${detail}`,
    'wrong-sign-in': 'Diese E-Mail-Adresse und dieses Passwort gehören nicht zusammen.',
    'wrong-code': 'Das ist nicht der Code, der jetzt gilt. Jeder gilt einmal: bitte den nächsten abwarten.',
    'too-many': (seconds: string) =>
      `Das wurde zu oft versucht. Bitte in ${seconds} Sekunden noch einmal versuchen.`,
    insecure:
      'Über eine Verbindung, die andere mitlesen können, wird niemand angemeldet. Bitte diese Seite mit https öffnen oder auf dem Rechner, auf dem der Server läuft.',
    link: 'Dieser Link gilt nicht oder nicht mehr. Jeder gilt einmal und für begrenzte Zeit: bitte einen neuen anfordern.',
  },
};

export default words;
