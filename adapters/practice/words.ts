/** Three questions to begin with: an easy one, one that knows nothing, and one that cannot be. */
export const READY = [
  {
    label: 'A hill-country hardtail',
    line: 'convert hardtail 29er 2x10 36/22 11-36 104bcd clutch stays=440mm chain=108',
  },
  { label: 'I know nothing about my bike', line: 'convert can i go 1x?' },
  { label: 'This cannot fit', line: 'convert 26T narrow-wide on 104' },
] as const;

/** Five steps through the room; each may do its step by itself. */
export const TOUR = [
  {
    title: 'Ask',
    text: 'Describe a bike in your own words, or begin with a ready question. The first line of the answer is the answer.',
    role: 'member',
    line: READY[0].line,
  },
  {
    title: 'Change one fact',
    text: 'Press a button under a question, or just type "what about 34?". The bike is remembered.',
    role: 'member',
    line: 'what about 34?',
  },
  {
    title: 'See how it is worked out',
    text: 'Open the parts of an answer. "How it is worked out" shows each formula with your numbers and its source.',
    role: 'member',
    line: '',
  },
  {
    title: 'Pin it, and have it approved',
    text: 'As a moderator, pin a standard answer. Then become the second moderator and approve it: nobody approves their own.',
    role: 'moderator',
    line: 'answer pin hill-rings text="On our hills 32T suits most 29ers. Ask with your own bike before you buy."',
  },
  {
    title: 'Sign off by two',
    text: 'As a mechanic, open a job and tick a row. Become the second mechanic for the second check. A number in chat is no sign-off.',
    role: 'mechanic',
    line: 'job open title="Practice hardtail" 2x10 36/22 11-36 29er hardtail 104bcd ring=32 cranktype=pinch boltmaterial=aluminium',
  },
] as const;
