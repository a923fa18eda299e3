import { keyNamed } from './key-synonyms.ts';
import { KEYS } from './keys.ts';
import { phraseAt } from './phrases.ts';

/** Stands for a comma, a bracket or the end of a sentence: what is left and right of it belongs less together. */
export const BREAK = ',';
/** Stands behind a word that was asked rather than told. */
export const ASKED = '?';

const NUMBER_NAME = /^\d+t?$/;
const COMMAS_ONLY =
  /^(?:\d+(?:,\d+)+[a-z"%°]*|(?:16|20|24|26|27(?:,5)?|28|29)(?:in|er|")?x\d,\d{1,3}(?:in|")?|27,5x[\d.]+(?:in|")?)$/;
const ARROWS = /[-=]+>/g;

/** Cuts a normalised setup line into words: `key=value` stays one word however it is spaced. */
export function wordsOf(line: string): readonly string[] {
  const text = line.includes('>') ? line.replace(ARROWS, ' to ') : line;
  const words: string[] = [];
  let word = '';
  let quoted = false;
  for (let at = 0; at < text.length; at += 1) {
    const character = text[at] ?? '';
    const next = text[at + 1] ?? '';
    const last = word[word.length - 1] ?? '';
    switch (character) {
      case ' ':
        word = push(words, word);
        break;
      case ',':
        if (isDigit(last) && isDigit(next)) word += character;
        else {
          word = push(words, word);
          mark(words, BREAK);
        }
        break;
      case ';':
      case '|':
      case '(':
      case ')':
      case '[':
      case ']':
      case '{':
      case '}':
        word = push(words, word);
        mark(words, BREAK);
        break;
      case '?':
        word = push(words, word);
        mark(words, ASKED);
        break;
      case '!':
        if (word.includes('=')) word += character;
        else word = push(words, word);
        break;
      case '=': {
        const from = word.indexOf('=');
        if (from >= 0) {
          // "ring= rings=36": the first key has no value.
          words.push(word.slice(0, from + 1));
          word = `${word.slice(from + 1)}=`;
        } else if (word !== '') word += '=';
        else word = `${takeBack(words)}=`;
        while (text[at + 1] === ' ' || text[at + 1] === '=') at += 1;
        break;
      }
      case ':':
        if (next === '' || next === ' ' || isKeyStart(next)) {
          const key = word === '' || word.includes('=') ? undefined : keyNamed(word);
          // "mount: direct" is a key; "crank: 4 bolts" is a heading, and its numbers find their own place.
          if (key !== undefined && (next !== ' ' || KEYS[key].form === 'choice' || KEYS[key].form === 'yes-no')) {
            word += '=';
            while (text[at + 1] === ' ') at += 1;
            break;
          }
          if (key !== undefined && phraseAt([word], 0)?.meaning.kind === 'label') {
            word = push(words, word);
            break;
          }
          if (key !== undefined) {
            word += '=';
            while (text[at + 1] === ' ') at += 1;
            break;
          }
        }
        if (next === '' || next === ' ') {
          word = push(words, word);
          mark(words, BREAK);
        } else word += character;
        break;
      case '.':
        if (isDigit(next) || next === '.' || last === '.') word += word === '' && isDigit(next) ? '0.' : '.';
        else if (isListEnd(last, next)) word += '.';
        else {
          word = push(words, word);
          mark(words, BREAK);
        }
        break;
      case '-':
        // "full-sus" and "16-inch" are two words, "11-36" and "24t-36t" are one.
        if (isLetter(next) && (isLetter(last) || isDigit(last)) && !word.includes('=')) word = push(words, word);
        else if (isDigit(next) && isLetter(last) && !NUMBER_NAME.test(tail(word)) && !word.includes('=')) {
          word = push(words, word);
        } else word += '-';
        break;
      case '/':
        if (isLetter(next) && !word.includes('=')) word = push(words, word);
        else if (isLetter(last) && !NUMBER_NAME.test(tail(word)) && !word.includes('=')) word = push(words, word);
        else word += '/';
        break;
      case '*':
        word += isDigit(last) && isDigit(next) ? 'x' : '*';
        break;
      case '\\':
      case '&':
      case '+':
        // "29+" is a wheel all the same.
        if (isDigit(last) && isDigit(next)) word += '/';
        else if (!isDigit(last)) word += character;
        break;
      case '~':
        if (isDigit(last) && isDigit(next)) word += '-';
        else if (word !== '') word += '~';
        break;
      case '"':
        // Behind a number it is an inch mark, unless it closes what it opened.
        if (word === '' || quoted) quoted = word === '';
        else if (isDigit(last)) word += '"';
        break;
      case "'":
        if (isDigit(last) && next === "'") {
          word += '"';
          at += 1;
        }
        break;
      default:
        word += character;
    }
  }
  push(words, word);
  return words;
}

function push(words: string[], word: string): string {
  if (word === '') return '';
  // "2x10,36/22,11-36" is three things, "36,22" a list and "73,5mm" one length.
  if (word.includes(',') && !word.includes('=') && !COMMAS_ONLY.test(word)) {
    for (const part of word.split(',')) words.push(part, BREAK);
    words.pop();
  } else words.push(word);
  return '';
}

function mark(words: string[], stop: string): void {
  if (words.length > 0 && words[words.length - 1] !== BREAK) words.push(stop);
}

function takeBack(words: string[]): string {
  const last = words[words.length - 1];
  if (last === undefined || last === BREAK || last === ASKED || last.includes('=')) return '';
  words.pop();
  return last;
}

function isDigit(character: string): boolean {
  return character >= '0' && character <= '9' && character.length === 1;
}

function isLetter(character: string): boolean {
  return (character >= 'a' && character <= 'z') || character > '\u00bf';
}

function isKeyStart(character: string): boolean {
  return isDigit(character) || isLetter(character) || character === '-';
}

/** The dots of "11-13-15-...-36" belong to the list. */
function isListEnd(last: string, next: string): boolean {
  return last === '.' || next === '.';
}

/** What stands behind the last joint of a word. */
function tail(word: string): string {
  const from = Math.max(word.lastIndexOf('/'), word.lastIndexOf('-'));
  return from < 0 ? word : word.slice(from + 1);
}
