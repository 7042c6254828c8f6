/** The office's token of the demonstration that the browser tests start. */
export const officeToken = process.env.HALFPOINT_OFFICE_TOKEN ?? 'the-office-of-the-browser-tests';
