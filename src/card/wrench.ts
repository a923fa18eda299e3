import type { Question, Refusal } from '../bike/reading.ts';
import type { WrenchPart } from '../commands/answer.ts';
import { SOURCES } from '../tables/sources.ts';
import type { Block } from './card.ts';
import { article, plain, torqueRange } from './measures.ts';

/** What to set on a wrench with a crow-foot extension, row by row. */
export function wrenchBlocks(wrench: WrenchPart): readonly Block[] {
  const { wrenchMm, extensionMm, angleDeg, factor } = wrench;
  return [
    {
      kind: 'checklist',
      section: 'torque',
      title: 'What to set with your extension',
      items: (wrench.settings ?? []).map((row) => ({
        text: `${row.fastener}, ${row.material}: set ${torqueRange(row.lowNm, row.highNm)}`,
      })),
    },
    {
      kind: 'text',
      section: 'torque',
      lines: [
        'Hold the wrench at mid-grip: the sum rests on that length.',
        'Never fold the extension back towards your hand if there is another way.',
        'A straight socket extension changes nothing: set the plain figure.',
      ],
    },
    {
      kind: 'working',
      section: 'torque',
      steps: [
        {
          quantity: 'Factor for the wrench setting',
          formula: 'T_set = T·L/(L + E·cosφ)',
          numbers: `${plain(wrenchMm, 1)}/(${plain(wrenchMm, 1)} + ${plain(extensionMm, 1)}·cos ${plain(angleDeg, 1)}°)`,
          result: `× ${factor.toFixed(3)}`,
          source: SOURCES.ExtensionExample,
        },
      ],
    },
  ];
}

export function wrenchQuestion(): Question {
  return {
    field: 'wrench',
    question: 'How long is the torque wrench, from the drive to the middle of the grip?',
    choices: [],
  };
}

export function noLeverRefusal(wrenchMm: number, extensionMm: number, angleDeg: number): Refusal {
  return {
    field: 'angle',
    message: `With ${article(extensionMm)} ${plain(extensionMm, 1)} mm extension at ${plain(angleDeg, 1)}° ${article(wrenchMm)} ${plain(wrenchMm, 1)} mm wrench has no lever.`,
    allowed: `wrench + extension × cos(angle) over 0 (${SOURCES.ExtensionExample})`,
    example: 'torque wrench=300 extension=40 angle=90',
  };
}
