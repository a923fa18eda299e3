import { noSuchJob } from '../card/job-refusals.ts';
import { jobSheet } from '../card/job-sheet.ts';
import { JOB } from './job-result.ts';
import type { Action } from './kept.ts';

/** The job as one page for the workbench. The page itself is made by the adapter that can: it takes the sheet from here. */
export const print: Action = {
  name: 'print',
  summary: 'A job as one page to print: parts, tools, steps, torque with blanks to sign',
  moderators: false,
  public: false,
  fields: [
    JOB,
    {
      name: 'paper',
      label: 'Paper',
      form: 'choice',
      required: false,
      choices: ['a4', 'letter'],
      example: 'paper=letter',
    },
  ],
  run: async ({ job, paper = 'a4' }, visit) => {
    const view = await visit.records.jobs.load(visit.who.place, Number(job));
    if (view === null) return { kind: 'refused', refusal: noSuchJob(Number(job)) };
    // The plan as the rules have it today: a job may be older than they are.
    const asked = { command: 'convert', setup: view.state.setup };
    const plan = visit.solve(asked);
    const receipt = plan.kind === 'answered' ? await visit.keep(plan, asked) : null;
    const sheet = jobSheet(view, plan.kind === 'answered' ? plan.card : null, receipt?.code ?? null);
    return {
      kind: 'done',
      words: {
        answer: `${sheet.title}: one page to print.`,
        lines: ['Black on white, with blanks for value, wrench and initials.', ...sheet.stops.slice(0, 2)],
        blocks: [
          {
            kind: 'actions',
            section: 'kept',
            title: 'Next',
            actions: [{ label: 'Show it', setup: `show ${view.job}` }],
          },
        ],
      },
      result: { job: view.job, paper: paper.toLowerCase() },
      print: { sheet, paper: paper.toLowerCase() === 'letter' ? 'letter' : 'a4', name: `job-${view.job}.pdf` },
    };
  },
};
