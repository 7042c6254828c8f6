/** The words of the office's page about the devices of the line, in German. */
import type { devicesWords } from './en-devices';

const words: typeof devicesWords = {
  devices: {
    heading: 'Geräte an der Linie',
    what: 'Geräte',
    lead: 'Ein Tablet der Linie wird einmal gekoppelt, mit der Kamera, einem Link oder einem Code, und arbeitet für seinen Sitz, bis es entkoppelt wird.',
    insecure:
      'Diese Seite ist nicht sicher (kein HTTPS). Ein Tablet lässt sich nur über HTTPS koppeln oder auf dem Rechner, auf dem der Dienst läuft.',
    announcer: 'Die Seite des Ansagers',
    scan: 'Codes eines Tablets einlesen',
    scanWhy: 'wenn ein Tablet kein Netz mehr hat',
    trust: 'Wie ein Tablet diesem Dienst vertraut',
    six: 'Das Zertifikat, dem zu vertrauen ist, in sechs Wörtern; das Protokoll des Dienstes und die Seite darüber müssen dieselben nennen:',
    pair: 'Ein Gerät koppeln',
    role: 'Für',
    judge: 'Wessen Sitz',
    nobody: 'kein Sitz',
    hasOne: (name: string) => `${name} (hat ein Tablet)`,
    make: 'Code erzeugen',
    making: 'Code wird erzeugt …',
    offered: (what: string) => `Jetzt zu koppeln: ${what}`,
    seatOf: (name: string) => `für den Sitz von ${name}`,
    until: (time: string) => `Der Code gilt einmal, bis ${time}. Er wird nur dieses eine Mal gezeigt.`,
    byCamera: 'Mit der Kamera des Tablets öffnen,',
    byLink: 'oder diesen Link darauf öffnen,',
    byCode: (address: string) => `oder ${address} öffnen und eintippen:`,
    address: 'Adresse für Tablets',
    hereOnly:
      'Link und QR-Code gelten nur auf diesem Rechner: Kein Tablet erreicht den Dienst. Bitte mit Namen, HTTPS und einer Adresse im Netz starten, wie es die Seite über HTTPS in der Dokumentation beschreibt.',
    qr: 'QR-Code mit dem Link, der das Tablet koppelt',
    copy: 'Link kopieren',
    copied: 'Kopiert.',
    paired: (what: string) => `Gekoppelt: ${what}.`,
    list: 'Gekoppelte Geräte',
    none: 'Noch ist kein Gerät gekoppelt',
    noneDo:
      'Oben einen Code erzeugen, für jeden Punktrichter, den Oberpunktrichter und alle, die Figuren ansagen.',
    column: {
      device: 'Gerät',
      paired: 'Gekoppelt',
      heard: 'Zuletzt gemeldet',
      unsent: 'Wartet dort',
      withdraw: 'Entkoppeln',
    },
    seat: (role: string, judge: string) => (judge === '' ? role : `${role}, ${judge}`),
    never: 'nie',
    silent: 'still',
    unknown: '–',
    handedOver: (time: string) => `mit Codes übergeben, zuletzt um ${time}`,
    twin: 'zweites Tablet für diesen Sitz',
    noTablet: (names: string) => `Noch kein Tablet: ${names}`,
    withdraw: 'Entkoppeln',
    withdrawSure: 'Wirklich entkoppeln?',
    sureText:
      'Was es gesendet hat, gilt weiter. Was es später sendet, bleibt aufgehoben und zählt nicht, bis darüber entschieden ist.',
    keep: 'Lassen',
    withdrawn: 'entkoppelt',
    gone: 'Entkoppelte Geräte',
  },
};

export default words;
