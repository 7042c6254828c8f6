/** The words of the page that says how a tablet comes to trust the service, in German. */
import type { trustWords } from './en-trust';

const words: typeof trustWords = {
  trust: {
    heading: 'Wie ein Tablet diesem Dienst vertraut',
    what: 'Zertifikat',
    none: 'Hier ist kein Zertifikat zu bestätigen',
    noneDo: 'Der Dienst hat ein Zertifikat, das jeder Browser kennt, oder gar keines.',
    lead: 'Dieser Dienst macht seine Zertifikate selbst, weil es auf dem Flugplatz kein Internet gibt. Jedes Tablet vertraut einem davon, einmal, bevor es gekoppelt wird. Es gilt nur für diesen Dienst, und sein Schlüssel ist vernichtet: Niemand kann damit ein weiteres machen.',
    paper:
      'Diese Seite bitte auf dem Rechner lesen, auf dem der Dienst läuft, oder auf Papier. Auf dem Tablet selbst beweist sie nichts: Eine gefälschte Seite würde einen passenden Fingerabdruck zeigen.',
    first: 'Zuerst vergleichen: Das Protokoll des Dienstes nennt ihn auch, als sha256.',
    six: 'Sechs Wörter',
    sixWhy:
      'Sie sind die ersten 66 Bit des Fingerabdrucks, zum Vorlesen: Das Protokoll des Dienstes nennt sie auch, als words. Ein Tablet zeigt den Fingerabdruck und keine Wörter.',
    fingerprint: 'Fingerabdruck (SHA-256)',
    unsure:
      'Der Fingerabdruck wird nicht gezeigt, weil diese Seite ohne HTTPS kam. Bitte mit dem Protokoll des Dienstes vergleichen.',
    open: 'Dies auf dem Tablet öffnen und die Warnung übergehen',
    qr: 'QR-Code mit der Adresse des Zertifikats',
    download: 'Zertifikat holen',
    compare: 'Erst den Fingerabdruck vergleichen, dann vertrauen. Weicht er ab: aufhören und das Büro rufen.',
    then: 'Dann den Dienst neu öffnen. Es kommt keine Warnung mehr, und das Tablet lässt sich koppeln.',
    kinds: [
      {
        name: 'iPad, iPhone',
        steps: [
          'Die Adresse in Safari öffnen, das Laden erlauben.',
          'Einstellungen → Profil geladen → Mehr Details → Zertifikat: den Fingerabdruck vergleichen.',
          'Installieren.',
          'Einstellungen → Allgemein → Info → Zertifikatsvertrauenseinstellungen: einschalten.',
        ],
      },
      {
        name: 'Android',
        steps: [
          'Die Adresse öffnen, die Datei behalten.',
          'Einstellungen → Sicherheit → Verschlüsselung und Anmeldedaten → Zertifikat installieren → CA-Zertifikat: die Datei auswählen.',
          'Vertrauenswürdige Anmeldedaten → Nutzer: öffnen und den Fingerabdruck vergleichen. Weicht er ab: sofort entfernen.',
        ],
      },
      {
        name: 'Windows',
        steps: [
          'Die Datei öffnen: Details → Fingerabdruck ist ein anderer, kürzerer; vergleichen mit „certutil -hashfile halfpoint.crt SHA256“.',
          'Zertifikat installieren → Lokaler Computer → Vertrauenswürdige Stammzertifizierungsstellen.',
        ],
      },
      {
        name: 'macOS',
        steps: [
          'Die Datei öffnen: Sie kommt in die Schlüsselbundverwaltung.',
          'Dort öffnen, den SHA-256-Fingerabdruck vergleichen, dann Vertrauen → Immer vertrauen.',
        ],
      },
      {
        name: 'Chromebook, Linux',
        steps: [
          'Einstellungen → Datenschutz und Sicherheit → Sicherheit → Zertifikate verwalten → Zertifizierungsstellen → Importieren.',
          'In den Details des Zertifikats den SHA-256-Fingerabdruck vergleichen.',
        ],
      },
    ],
    after: 'Nach dem Wettbewerb das Zertifikat wieder vom Tablet entfernen.',
  },
};

export default words;
