/** The words of what an announcer is to tell of a pilot. */

export const toldWords = {
  told: {
    heading: 'For the announcer',
    why: 'The announcer reads this out while the flight is on. The pilot and the office can write it; nothing of it is published, and no grade depends on it.',
    what: 'what the announcer tells',
    thing: 'pilot',
    note: 'A line about the pilot',
    own: 'The flight in the pilot’s own words',
    ownOf: (category: string, programme: string) => `${category}, ${programme}, in the pilot’s own words`,
    ownWhy:
      'What the crowd will see, and what to look for. Shown to the announcer when the flight is called.',
    save: 'Save',
    saving: 'Saving …',
    saved: 'Saved.',
    kept: 'Not saved yet; kept on this device.',
    found: 'Not saved yet; it was found on this device.',
    notKept: 'Not saved yet; this browser keeps nothing when the page is closed.',
    discard: 'Discard',
    changed:
      'Somebody else changed this meanwhile, and it was not saved. Save again to put yours in place of what is there now:',
    empty: 'Nothing.',
  },
};
