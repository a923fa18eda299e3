import type { KeyName } from '../../src/bike/keys.ts';
import type { LineOption } from './options.ts';

/** What a command, an action or an option is called and how it is described, in one language. */
export type Wording = { readonly name: string; readonly description: string };

/** The second language of the command texts, by the platform's key for it; English is the first. */
export const SECOND = 'de';

type QuestionName = 'convert' | 'gears' | 'chain' | 'mount' | 'chainline' | 'torque' | 'weight' | 'wear';
type TopicName = 'help' | 'measure';
type KeptName = 'bike' | 'answer' | 'job' | 'data' | 'settings';

const COMMANDS: Readonly<Record<QuestionName | TopicName | KeptName, Wording>> = {
  convert: {
    name: 'umbauen',
    description: 'Der ganze Plan für ein Kettenblatt: Gänge, Kette, Schrauben, Kettenlinie, Drehmomente, Gewicht',
  },
  gears: {
    name: 'gänge',
    description: 'Die Gänge von heute gegen ein Kettenblatt: kleinster, größter, Bandbreite, Tempo',
  },
  chain: { name: 'kette', description: 'Wie lang die Kette sein muss, und was heraus- oder hineinkommt' },
  mount: {
    name: 'befestigung',
    description: 'Lochkreis, kleinstes Blatt darauf, und ob die alten Schrauben bleiben können',
  },
  chainline: {
    name: 'kettenlinie',
    description: 'Wie gerade die Kette zu jedem Ritzel läuft, und wo das Blatt sitzen sollte',
  },
  torque: {
    name: 'drehmoment',
    description: 'Eine Liste genau der Schrauben dieser Arbeit, mit Warnungen und Einstellung des Schlüssels',
  },
  weight: { name: 'gewicht', description: 'Was abkommt, was dazukommt und was gespart wird' },
  wear: { name: 'verschleiß', description: 'Ob die Kette fällig ist, und wann Kassette und Blätter mit ihr' },
  help: { name: 'hilfe', description: 'Was man hier fragen kann, oder mehr über einen Befehl' },
  measure: { name: 'messen', description: 'Wie man misst, was niemand auswendig weiß: drei Schritte und ein Bild' },
  bike: { name: 'rad', description: 'Räder unter einem Namen aufheben und mit bike=Name nach ihnen fragen' },
  answer: {
    name: 'antwort',
    description: 'Die festen Antworten dieses Ortes: zeigen, suchen, anheften, aktuell halten',
  },
  job: {
    name: 'auftrag',
    description: 'Drehmomente abzeichnen: eine Zeile je Schraube, zu zweit, wo es darauf ankommt',
  },
  data: { name: 'daten', description: 'Alles sehen, was hier über dich aufgehoben ist, oder es löschen lassen' },
  settings: {
    name: 'einstellungen',
    description: 'Einheiten, wer anheften darf, zweite Zustimmung, und wie lange hier aufgehoben wird',
  },
};

const ACTIONS: Readonly<Record<string, Wording>> = {
  'bike save': { name: 'aufheben', description: 'Ein Rad unter einem Namen aufheben, nur für dich' },
  'bike show': { name: 'zeigen', description: 'Eines deiner Räder zeigen, oder ein geteiltes' },
  'bike list': { name: 'liste', description: 'Deine Räder, und die hier geteilten' },
  'bike share': { name: 'teilen', description: 'Eines deiner Räder allen hier zeigen, oder nicht mehr' },
  'bike rename': { name: 'umbenennen', description: 'Einem deiner Räder einen anderen Namen geben' },
  'bike forget': { name: 'vergessen', description: 'Eines deiner Räder vergessen' },
  'answer show': { name: 'zeigen', description: 'Eine feste Antwort zeigen; ihre Karte wird jedes Mal neu gerechnet' },
  'answer find': { name: 'suchen', description: 'Feste Antworten nach Wörtern suchen' },
  'answer list': { name: 'liste', description: 'Alle festen Antworten dieses Ortes' },
  'answer pin': { name: 'anheften', description: 'Einen Text oder eine gegebene Antwort unter ein Thema heften' },
  'answer edit': { name: 'ändern', description: 'Text, weitere Namen oder Karte eines Themas ändern' },
  'answer history': { name: 'verlauf', description: 'Wer eine feste Antwort wann und warum geändert hat' },
  'answer restore': { name: 'zurückholen', description: 'Eine ältere Fassung eines Themas zurückholen' },
  'answer unpin': { name: 'abnehmen', description: 'Eine feste Antwort abnehmen; ihr Verlauf bleibt' },
  'answer drafts': { name: 'entwürfe', description: 'Was auf eine zweite Zustimmung wartet, und was es ändern würde' },
  'answer approve': { name: 'zustimmen', description: 'Den Entwurf von jemand anderem gelten lassen' },
  'answer decline': { name: 'ablehnen', description: 'Einen Entwurf ablehnen, oder den eigenen zurücknehmen' },
  'answer stale': {
    name: 'überholt',
    description: 'Welche angehefteten Antworten nach den Regeln von heute anders lauten',
  },
  'job open': { name: 'beginnen', description: 'Mit dem Abzeichnen beginnen: eine Zeile je Schraube des Plans' },
  'job list': { name: 'liste', description: 'Die offenen Aufträge hier, oder die abgeschlossenen' },
  'job show': {
    name: 'zeigen',
    description: 'Ein Auftrag, wie er steht: Bereich, Unterschriften und Schlüssel je Zeile',
  },
  'job tick': { name: 'abzeichnen', description: 'Eine Zeile mit eingestelltem Wert und Schlüssel abzeichnen' },
  'job second': {
    name: 'gegenzeichnen',
    description: 'Eine Zeile an Kurbel, Lenkung oder Bremse als zweite Person prüfen',
  },
  'job strike': { name: 'streichen', description: 'Eine Zeile streichen, die dieser Auftrag nicht braucht, mit Grund' },
  'job undo': {
    name: 'zurücknehmen',
    description: 'Eine Zeile wieder öffnen, mit Grund; was dort stand, bleibt im Verlauf',
  },
  'job note': { name: 'vermerken', description: 'Etwas zum Auftrag vermerken, etwa abgelehnten Rat' },
  'job close': {
    name: 'abschließen',
    description: 'Einen Auftrag abschließen, wenn jede Zeile abgezeichnet oder gestrichen ist',
  },
  'job reopen': { name: 'wiederöffnen', description: 'Einen abgeschlossenen Auftrag wieder öffnen, mit Grund' },
  'job log': { name: 'verlauf', description: 'Alles, was an einem Auftrag je getan wurde, der Reihe nach' },
  'job print': {
    name: 'drucken',
    description: 'Ein Auftrag als eine Seite zum Drucken: Teile, Werkzeug, Schritte, Drehmomente',
  },
  'data show': { name: 'zeigen', description: 'Alles, was hier über dich aufgehoben ist' },
  'data delete': {
    name: 'löschen',
    description: 'Löschen, was hier über dich aufgehoben ist; sagt erst, was das täte',
  },
  'settings show': { name: 'zeigen', description: 'Wie dieser Ort es haben will' },
  'settings change': { name: 'ändern', description: 'Ändern, wie dieser Ort es haben will; nur was genannt wird' },
};

/** By the name of a field, or by command, action and field where the same name means something else. */
const FIELDS: Readonly<Record<string, Wording>> = {
  name: { name: 'name', description: 'Name des Rades' },
  setup: { name: 'rad', description: 'Das Rad in eigenen Worten' },
  share: { name: 'teilen', description: 'Ob alle hier es sehen' },
  from: { name: 'von', description: 'Code einer Antwort' },
  'bike rename from': { name: 'von', description: 'Name des Rades bisher' },
  to: { name: 'nach', description: 'Neuer Name' },
  topic: { name: 'thema', description: 'Thema' },
  with: { name: 'mit', description: 'Was anders ist, etwa ring=34' },
  words: { name: 'wörter', description: 'Wörter' },
  text: { name: 'text', description: 'Text' },
  aliases: { name: 'andere-namen', description: 'Weitere Namen, mit Kommas dazwischen' },
  why: { name: 'warum', description: 'Grund' },
  version: { name: 'fassung', description: 'Nummer der Fassung' },
  draft: { name: 'entwurf', description: 'Nummer des Entwurfs' },
  after: { name: 'nach', description: 'Weiter nach diesem Eintrag' },
  before: { name: 'vor', description: 'Nur vor dieser Nummer' },
  title: { name: 'titel', description: 'Titel' },
  bike: { name: 'gemerktes-rad', description: 'Name eines aufgehobenen Rades' },
  job: { name: 'auftrag', description: 'Nummer des Auftrags' },
  row: { name: 'zeile', description: 'Nummer der Zeile' },
  value: { name: 'wert', description: 'Eingestellter Wert, etwa 13.5 oder 120 lbf·in' },
  wrench: { name: 'schlüssel', description: 'Benutzter Drehmomentschlüssel' },
  due: { name: 'geeicht-bis', description: 'Tag, bis zu dem der Schlüssel geprüft ist, etwa 2027-03-01' },
  paper: { name: 'papier', description: 'Papier' },
  closed: { name: 'abgeschlossene', description: 'Die abgeschlossenen' },
  part: { name: 'teil', description: 'Nur eine Art davon' },
  page: { name: 'seite', description: 'Seite' },
  confirm: { name: 'bestätigen', description: 'Wirklich löschen' },
  units: { name: 'einheiten', description: 'Welche Einheiten zuerst stehen' },
  decimals: { name: 'dezimalzeichen', description: 'Punkt oder Komma' },
  pinroles: { name: 'rollen', description: 'Rollen, die anheften dürfen, etwa +@Rolle' },
  pinpeople: { name: 'leute', description: 'Leute, die anheften dürfen, etwa +@Name' },
  approvals: { name: 'zustimmung', description: 'Ob eine zweite Person zustimmen muss' },
  receiptdays: { name: 'tage-antworten', description: 'Wie viele Tage Antworten aufgehoben werden' },
  jobdays: { name: 'tage-aufträge', description: 'Wie viele Tage abgeschlossene Aufträge aufgehoben werden' },
};

const LINE: Readonly<Record<LineOption | 'topic', Wording>> = {
  setup: { name: 'rad', description: 'Das Rad in eigenen Worten, etwa 2x10 36/22 11-36 29er 104bcd' },
  bike: { name: 'gemerktes-rad', description: 'Ein Rad, das unter einem Namen aufgehoben ist' },
  code: { name: 'code', description: 'Eine Antwort, die hier gegeben wurde' },
  topic: { name: 'thema', description: 'Worüber du mehr wissen willst' },
};

const KEYS: Readonly<Record<KeyName, Wording>> = {
  rings: { name: 'kettenblätter', description: 'Kettenblätter jetzt, etwa 36/22' },
  cassette: { name: 'kassette', description: 'Kassette jetzt, etwa 11-36' },
  speeds: { name: 'ritzelzahl', description: 'Wie viele Ritzel die Kassette hat' },
  ring: { name: 'wunschblatt', description: 'Zähne des gewünschten einen Blattes' },
  newcassette: { name: 'neue-kassette', description: 'Gewünschte Kassette, etwa 11-46' },
  bcd: { name: 'lochkreis', description: 'Lochkreisdurchmesser in mm' },
  innerbcd: { name: 'innerer-lochkreis', description: 'Innerer Lochkreis, der des kleinsten Blattes, in mm' },
  bolts: { name: 'schraubenzahl', description: 'Wie viele Kettenblattschrauben' },
  gap: { name: 'lochabstand', description: 'Abstand benachbarter Löcher, Mitte zu Mitte' },
  pattern: { name: 'lochbild', description: 'Ob alle Löcher gleich weit auseinander liegen' },
  sharing: { name: 'blätter-am-lochkreis', description: 'Wie viele Blätter jetzt auf diesem Lochkreis sitzen' },
  mount: { name: 'halterung', description: 'Wie das Blatt gehalten wird' },
  offset: { name: 'kröpfung', description: 'Kröpfung eines direkt montierten Blattes in mm' },
  maxring: { name: 'größtes-blatt', description: 'Größtes Blatt, für das der Rahmen Platz hat' },
  wheel: { name: 'hinterrad', description: 'Hinterrad und Reifen, etwa 57-622 oder 29x2.2' },
  stays: { name: 'kettenstrebe', description: 'Tretlagermitte bis Hinterachse in mm' },
  longest: { name: 'längster-abstand', description: 'Achsabstand bei längster Federung in mm' },
  suspension: { name: 'hinterfederung', description: 'Hinterradfederung' },
  chain: { name: 'kettenglieder', description: 'Kette jetzt, in Gliedern von Bolzen zu Bolzen' },
  join: { name: 'verschluss', description: 'Wie die Kette geschlossen ist' },
  allowance: { name: 'zugabe', description: 'Zugabe zur Kettenlänge in Gliedern' },
  chainline: { name: 'kettenlinie', description: 'Kettenlinie des Blattes in mm' },
  hub: { name: 'nabenbreite', description: 'Einbaubreite der Hinterradnabe in mm' },
  maxcog: { name: 'größtes-ritzel', description: 'Größtes Ritzel, das das Schaltwerk schafft' },
  mincog: { name: 'kleinstes-großes-ritzel', description: 'Wie groß das größte Ritzel mindestens sein muss' },
  capacity: { name: 'kapazität', description: 'Kapazität des Schaltwerks in Zähnen' },
  cage: { name: 'käfig', description: 'Käfiglänge des Schaltwerks' },
  clutch: { name: 'dämpfung', description: 'Ob das Schaltwerk eine Käfigdämpfung hat' },
  guide: { name: 'kettenführung', description: 'Ob es eine Kettenführung gibt' },
  ground: { name: 'untergrund', description: 'Worauf gefahren wird' },
  terrain: { name: 'gelände', description: 'Wie bergig es ist' },
  rider: { name: 'fahrer', description: 'Gewicht mit Kleidung und Gepäck in kg' },
  bikeweight: { name: 'radgewicht', description: 'Gewicht des Rades in kg' },
  power: { name: 'leistung', description: 'Leistung am Berg in W' },
  cadence: { name: 'trittfrequenz', description: 'Umdrehungen in der Minute' },
  crank: { name: 'kurbellänge', description: 'Kurbellänge in mm' },
  cranktype: { name: 'kurbelart', description: 'Wie der Kurbelarm gehalten wird' },
  boltmaterial: { name: 'schraubenmaterial', description: 'Stahl oder Aluminium: ein Magnet sagt es' },
  bar: { name: 'lenker', description: 'Gerader oder Rennlenker' },
  assist: { name: 'motorhilfe', description: 'Ob und wo ein Motor mithilft' },
  tandem: { name: 'tandem', description: 'Ob es ein Tandem ist' },
  oval: { name: 'ovalität', description: 'Um wie viel Prozent das Blatt oval ist' },
  ringtab: { name: 'blattdicke', description: 'Dicke des neuen Blattes an der Schraube in mm' },
  spidertab: { name: 'armdicke', description: 'Dicke des Kurbelarms an der Schraube in mm' },
  sleeve: { name: 'hülse', description: 'Länge der Schraubenhülse in mm' },
  wrench: { name: 'schlüssellänge', description: 'Drehmomentschlüssel, Antrieb bis Griffmitte in mm' },
  extension: { name: 'verlängerung', description: 'Aufsatz, Antrieb bis Schraube in mm' },
  angle: { name: 'winkel', description: 'Winkel zwischen Schlüssel und Aufsatz in Grad' },
  wear: { name: 'längung', description: 'Längung der Kette in Prozent' },
  units: { name: 'einheiten', description: 'Welche Einheiten zuerst stehen' },
};

/** The second language for one thing, or null where it has none yet; a test sees to it that everything has. */
export const GERMAN = {
  command: (name: string): Wording | null => own(COMMANDS, name),
  action: (command: string, action: string): Wording | null => own(ACTIONS, `${command} ${action}`),
  field: (command: string, action: string, field: string): Wording | null =>
    own(FIELDS, `${command} ${action} ${field}`) ?? own(FIELDS, field),
  line: (option: LineOption | 'topic'): Wording => LINE[option],
  key: (key: KeyName): Wording => KEYS[key],
  /** Names of commands on a message may have blanks. */
  messageCommands: { pin: 'Als feste Antwort anheften', reply: 'Mit fester Antwort antworten' },
} as const;

function own(wordings: Readonly<Record<string, Wording>>, key: string): Wording | null {
  return Object.hasOwn(wordings, key) ? (wordings[key] ?? null) : null;
}
