/** The words of the page that says how a tablet comes to trust the service. */

export const trustWords = {
  trust: {
    heading: 'How a tablet comes to trust this service',
    what: 'the certificate',
    none: 'Nothing has to be trusted here',
    noneDo: 'The service has a certificate that every browser knows, or none at all.',
    lead: 'This service makes its own certificates, because there is no Internet on the field. Each tablet trusts one of them, once, before it is paired. It speaks for this service alone, and its key is gone: nobody can make another with it.',
    paper:
      'Read this page on the machine that the service runs on, or on paper. On the tablet itself it proves nothing: a page that was forged would show a fingerprint to match.',
    first: 'Compare first: the log of the service says it too, as sha256.',
    six: 'Six words',
    sixWhy:
      'They are the first 66 bits of the fingerprint, to be read aloud: the log of the service says them too, as words. A tablet shows the fingerprint and no words.',
    fingerprint: 'Fingerprint (SHA-256)',
    unsure:
      'The fingerprint is not shown, because this page came without HTTPS. Compare with the log of the service.',
    open: 'Open this on the tablet, and go on past the warning',
    qr: 'QR code with the address of the certificate',
    download: 'Get the certificate',
    compare: 'Compare the fingerprint before you trust it. Where it differs, stop and call the office.',
    then: 'Then open the service again. There is no warning any more, and the tablet can be paired.',
    kinds: [
      {
        name: 'iPad, iPhone',
        steps: [
          'Open the address in Safari, allow the download.',
          'Settings → Profile Downloaded → More Details → Certificate: compare the fingerprint.',
          'Install.',
          'Settings → General → About → Certificate Trust Settings: switch it on.',
        ],
      },
      {
        name: 'Android',
        steps: [
          'Open the address, keep the file.',
          'Settings → Security → Encryption and credentials → Install a certificate → CA certificate: choose the file.',
          'Trusted credentials → User: open it, and compare the fingerprint. Where it differs, remove it at once.',
        ],
      },
      {
        name: 'Windows',
        steps: [
          'Open the file: Details → Thumbprint is another, shorter one; compare with “certutil -hashfile halfpoint.crt SHA256”.',
          'Install Certificate → Local Machine → Trusted Root Certification Authorities.',
        ],
      },
      {
        name: 'macOS',
        steps: [
          'Open the file: it comes into Keychain Access.',
          'Open it there, compare the SHA-256 fingerprint, then Trust → Always Trust.',
        ],
      },
      {
        name: 'Chromebook, Linux',
        steps: [
          'Settings → Privacy and security → Security → Manage certificates → Authorities → Import.',
          'Compare the SHA-256 fingerprint in the details of the certificate.',
        ],
      },
    ],
    after: 'After the contest take the certificate off the tablet again.',
  },
};
