import type { Value } from './fields.ts';
import type { KeyName } from './keys.ts';

/**
 * What a number beside a word is: the value of a key, or something that only the rest of the line settles. `front` and
 * `rear` are where it sits, `wanted` that it is still to come, `toward` the
 * same of what stands behind the word, never before it, `plea` a please beside a ring, `ring-part` one of several rings, `travel` how far a
 * shock moves, `other-part` the size of a part that no answer needs, `most` the largest of something, `motor` the watts
 * of a motor, `one-rider` the weight of one of two, `circle-near` a bolt circle on either side if
 * it can be one.
 */
export type Label =
  | KeyName
  | 'front'
  | 'rear'
  | 'wanted'
  | 'toward'
  | 'plea'
  | 'sprockets'
  | 'gears'
  | 'ring-part'
  | 'smallest'
  | 'largest'
  | 'dinner-plate'
  | 'travel'
  | 'frame-size'
  | 'other-part'
  | 'tyre'
  | 'circle-near'
  | 'motor'
  | 'one-rider'
  | 'most'
  | 'circle-weak';

/** What a word or a phrase means. `aside` is understood but says nothing of the bike: it is shown, not used. */
export type Meaning =
  | { readonly kind: 'fact'; readonly key: KeyName; readonly value: Value }
  | { readonly kind: 'label'; readonly label: Label }
  | { readonly kind: 'rings'; readonly count: number }
  | { readonly kind: 'usual-rings'; readonly rings: readonly number[] }
  | { readonly kind: 'travelling' }
  | { readonly kind: 'uneven' }
  | { readonly kind: 'pattern'; readonly value: 'even' | 'uneven' }
  | { readonly kind: 'assist'; readonly value: 'none' | 'hub' | 'mid-drive' | 'yes' }
  | { readonly kind: 'mech' }
  | { readonly kind: 'hub-gear' }
  | { readonly kind: 'present'; readonly back: boolean }
  | { readonly kind: 'swap' }
  | { readonly kind: 'not' }
  | { readonly kind: 'unsure' }
  | { readonly kind: 'skip' }
  | { readonly kind: 'aside' };

export type Phrase = { readonly words: readonly string[]; readonly meaning: Meaning };

const FACTS: readonly (readonly [key: KeyName, value: Value, phrases: string])[] = [
  [
    'suspension',
    'none',
    'hardtail,hard tail,ht,rigid,front suspension only,only front suspension,no suspension,no rear suspension,no rear shock,rigid rear',
  ],
  [
    'suspension',
    'rear',
    'full sus,full suspension,full susser,full suss,full squish,fully,fs,dually,susser,dual suspension,dual sus,rear suspension,soft tail,softail',
  ],
  ['mount', 'direct', 'direct mount,directmount,dm,spiderless,direct mounted'],
  ['mount', 'riveted', 'riveted,rivetted,riveted rings,riveted on'],
  ['mount', 'bolted', 'bolted,bolted rings,bolt on rings,bolted on'],
  ['cage', 'short', 'cage short,short cage,shortcage,short caged'],
  ['cage', 'medium', 'cage medium,medium cage,mid cage,middle cage,medium caged'],
  ['cage', 'long', 'cage long,long cage,longcage,long caged'],
  ['clutch', true, 'clutch,clutch on,clutch mech,clutched,tension lever,clutch derailleur,clutch lever,clutched mech'],
  ['clutch', false, 'clutchless,no clutch,non clutch,without clutch'],
  ['guide', true, 'chain guide,chainguide,guide,upper guide,top guide'],
  ['guide', false, 'no guide,no chain guide,guideless,without guide'],
  [
    'join',
    'link',
    'quick link,quicklink,quick links,missing link,power link,powerlink,master link,masterlink,joining link,connecting link,connector link,split link',
  ],
  [
    'join',
    'pin',
    'joining pin,joined with a pin,joined with pin,joined by a pin,connecting pin,pinned,pin joined,no quick link,no quicklink,no joining link,no master link,no missing link,no power link,rivet pin,pinned together,joined by pin,connector pin',
  ],
  ['hub', 148, 'boost'],
  ['hub', 157, 'super boost,superboost'],
  [
    'terrain',
    'hills',
    'hills,hilly,hill country,mountains,mountainous,steep hills,lots of hills,steep climbs,hilly terrain',
  ],
  ['terrain', 'rolling', 'rolling,rolling hills,rolling terrain,undulating,rolling country'],
  ['terrain', 'flat', 'flat,flat land,flat country,mostly flat,pan flat,flatland,flat terrain'],
  ['ground', 'rough', 'rough,rocky,rooty,rough ground,rock gardens,rough trails,rough terrain'],
  ['ground', 'mixed', 'mixed ground,mixed surfaces,mixed surface,mixed terrain'],
  ['ground', 'smooth', 'smooth,smooth ground,smooth roads,smooth trails'],
  ['bar', 'flat', 'flat bar,flat bars,flatbar,flat handlebar,flat handlebars,riser bar,riser bars'],
  ['bar', 'drop', 'drop bar,drop bars,dropbar,drop handlebar,drop handlebars,dropped bars'],
  [
    'cranktype',
    'pinch',
    'pinch bolts,pinch bolt,two pinch bolts,2 pinch bolts,pinch bolt cranks,pinch cranks,pinch crank,pinch',
  ],
  ['cranktype', 'taper', 'taper,square taper,square tapered,taper crank,taper axle'],
  ['cranktype', 'splined', 'splined axle,splined crank,splined,splined bottom bracket'],
  [
    'boltmaterial',
    'steel',
    'steel bolts,steel ring bolts,ring bolts steel,chainring bolts steel,steel chainring bolts,bolts are steel,ring bolts are steel,chainring bolts are steel,bolts steel,bolts are made of steel',
  ],
  [
    'boltmaterial',
    'aluminium',
    'aluminium bolts,aluminum bolts,alloy bolts,alu bolts,ring bolts aluminium,ring bolts aluminum,ring bolts alloy,aluminium ring bolts,alloy ring bolts,aluminum ring bolts,aluminium chainring bolts,alloy chainring bolts,aluminum chainring bolts,alu chainring bolts,alu ring bolts,bolts are aluminium,ring bolts are aluminium,chainring bolts are aluminium,chainring bolts are alloy,ring bolts are alloy,bolts are aluminum,bolts are alloy,bolts are alu,bolts aluminium,bolts alloy',
  ],
  ['pattern', 'uneven', 'uneven bolt pattern,uneven hole pattern,asymmetric bolt pattern,asymmetrical bolt pattern'],
  ['pattern', 'even', 'even bolt pattern,even hole pattern,symmetric bolt pattern,symmetrical bolt pattern'],
  ['tandem', true, 'tandem,tandems,tandem bike,tandem bicycle,tandem mtb,bicycle made for two,bike built for two'],
  ['tandem', false, 'no tandem,not a tandem,not tandem,isnt a tandem,solo bike,solo bicycle'],
  ['units', 'metric', 'metric'],
  ['units', 'imperial', 'imperial'],
];

const LABELS: readonly (readonly [label: Label, phrases: string])[] = [
  [
    'rings',
    'rings,chainrings,chain rings,crankset,chainset,ringset,front rings,front chainrings,front sprockets,rings now',
  ],
  [
    'ring',
    'ring,chainring,chain ring,single ring,single chainring,single,wanted ring,new ring,new chainring,ring wanted',
  ],
  [
    'ring',
    'narrow wide,wide narrow,nw,thick thin,thin thick,drop proof ring,narrow wide ring,narrowwide,ring size,front ring,front chainring',
  ],
  ['front', 'front,up front,in front,at the front,front sprocket'],
  ['cassette', 'cassette,freewheel,block,rear cassette,rear cogs,rear sprockets,present cassette,old cassette'],
  ['newcassette', 'new cassette,bigger cassette,wider cassette,wanted cassette,cassette wanted'],
  ['rear', 'rear,back,at the back,out back,in back,at the rear,in the back,in the rear'],
  ['sprockets', 'sprockets,cogs'],
  ['speeds', 'speed,speeds,spd,sp,spds'],
  ['gears', 'gears,gear'],
  ['wanted', 'wanted,instead'],
  ['plea', 'please,pls,plz'],
  [
    'toward',
    'want,to,go to,what about,how about,swap to,change to,target,want a,wants,new,go,try,or maybe,converted to,upgrade to,add,into',
  ],
  [
    'bcd',
    'bcd,pcd,bcds,pcds,bolt circle,bolt circles,two bolt circles,two circles,both circles,circles,bolt circle diameter,mm circle,circle,b c d,bolt pattern,mm bcd,mm pcd,spider,outer bcd,outer pcd,outer circle,outer bolt circle,mm outer circle',
  ],
  [
    'innerbcd',
    'inner bcd,inner pcd,inner circle,inner bolt circle,mm inner circle,mm inner bcd,granny bcd,granny pcd,granny circle,granny bolt circle,bcd inner,second circle,second bcd,second bolt circle',
  ],
  ['circle-weak', 'on,on a,on the,onto'],
  ['bolts', 'bolt,bolts,arm,arms,ring bolts,chainring bolts,armed,bolt crank,arm crank,arm spider,arm cranks,bolter'],
  [
    'gap',
    'between bolts,between holes,apart,gap,between bolt holes,bolt holes,hole to hole,bolt to bolt,hole gap,bolt gap,between the bolts,between two bolts,between adjacent bolts,between neighbouring bolts,bolt spacing,hole spacing,centre to centre,center to center,between the holes,between adjacent holes,bolts apart,from bolt to bolt,from hole to hole,adjacent holes,adjacent bolts',
  ],
  ['sharing', 'sharing,rings sharing,rings share the circle,rings on this circle'],
  ['offset', 'offset,ring offset'],
  [
    'maxring',
    'max ring,largest ring,biggest ring,max chainring,frame takes,frame takes max,room for,frame max,ring at most',
  ],
  ['wheel', 'wheel,wheels,wheelsize,wheel size,rim,rims,rear wheel'],
  ['wheel', 'roll out,rollout,circumference,wheel circumference'],
  ['tyre', 'tyre,tyres,tire,tires,rubber,wide tyres,wide tires'],
  [
    'stays',
    'stays,stay,chainstay,chainstays,chain stay,chain stays,cs,chainstay length,chainstays are,rear centre,rear center,chainstays measure,axle to axle,bottom bracket to rear axle,bottom bracket to axle,bb to rear axle,bb to axle,crank axle to wheel axle,crank axle to rear axle,crank to axle',
  ],
  [
    'longest',
    'longest,grows to,growing to,at longest,at its longest,at the longest,at full extension,longest stays,longest stay,longest chainstay',
  ],
  ['chain', 'chain,chain length,chain is,chain has,present chain'],
  ['chain', 'half links,chain links,link chain'],
  ['allowance', 'allowance,chain allowance'],
  ['chainline', 'chainline,chain line'],
  [
    'hub',
    'hub,hub width,rear hub,oln,dropouts,dropout spacing,rear spacing,rear end,axle spacing,over locknuts,hub spacing,spaced,rear axle,qr,quick release,thru axle,through axle,rear dropouts',
  ],
  [
    'maxcog',
    'max sprocket,max cog,mech max,mech max cog,mech max sprocket,mech says max,mech says,mech takes,mech takes max,mech takes up to,mech rated to,rd max,derailleur max,derailleur says max,derailleur takes,max rear sprocket,max rear cog,largest cog the mech takes,mech limit,rated to,mech good for,mech maximum,mech is rated to,rd takes,rd says max,derailleur rated to,derailleur is rated to,mech up to,rd up to,cog max,sprocket max,mech handles',
  ],
  ['mincog', 'min largest sprocket,smallest largest sprocket,largest sprocket at least'],
  ['capacity', 'capacity,total capacity,mech capacity,wrap capacity'],
  [
    'rider',
    'rider,i weigh,rider weight,weigh,rider weighs,riders,both riders,two riders,riders together,both riders together',
  ],
  ['one-rider', 'captain,stoker,pilot,front rider,rear rider,captain weighs,stoker weighs'],
  ['bikeweight', 'bicycle,bike weighs,bike weight,bike is,the bike weighs'],
  ['power', 'power,watts,ftp,i hold,hold'],
  ['cadence', 'cadence,rpm,i spin,spin at'],
  ['crank', 'crank,cranks,crank arm,crank arms,crankarm,crankarms,crank length,crank arm length'],
  ['oval', 'oval,ovality,elliptical,oval ring,ovalised'],
  ['ringtab', 'ring tab,ring tabs,ring thickness'],
  ['spidertab', 'crank tab,spider tab,crank tabs,spider tabs,arm tab'],
  ['sleeve', 'sleeve,bolt sleeve,sleeves,sleeve length'],
  ['wrench', 'wrench,torque wrench'],
  ['extension', 'extension,crow foot,crowfoot'],
  ['angle', 'angle'],
  ['wear', 'wear,worn,stretched,stretch,chain wear,chain worn,chain stretch,chain stretched,wear of,elongation'],
  [
    'ring-part',
    'big ring,outer ring,large ring,outer,big,middle ring,middle,small ring,inner ring,little ring,inner,granny,granny ring,small,granny gear,outer chainring,inner chainring,middle chainring,big chainring,small chainring',
  ],
  ['smallest', 'smallest sprocket,smallest cog,small cog,top cog,small sprocket'],
  ['largest', 'largest sprocket,largest cog,biggest cog,big cog,biggest sprocket,big sprocket,low cog,cog,sprocket'],
  ['dinner-plate', 'dinner plate,dinnerplate'],
  ['frame-size', 'frame,frame size'],
  [
    'other-part',
    'bb,bottom bracket,bottom bracket shell,bb shell,rotor,rotors,seatpost,seat post,stem,hex,hex key,spokes,spoke,psi,bar pressure,headset,fork offset,discs,disc,nm',
  ],
  ['most', 'max,maximum,up to,at most'],
];

const SETS: readonly (readonly [meaning: Meaning, phrases: string])[] = [
  [{ kind: 'rings', count: 2 }, 'double,twoby,two by,doubles,double crankset,double chainset'],
  [{ kind: 'rings', count: 3 }, 'triple,threeby,three by,triples,triple crankset,triple chainset'],
  [{ kind: 'rings', count: 1 }, 'oneby,one by,1 by,single by,one ring,one chainring'],
  [{ kind: 'usual-rings', rings: [50, 34] }, 'compact,compact crank,compact chainset,compact crankset,compact double'],
  [{ kind: 'usual-rings', rings: [46, 30] }, 'sub compact,subcompact,super compact'],
  [{ kind: 'travelling' }, 'rear shock,rear travel,shock,rear suspension travel,travel rear shock'],
  [
    { kind: 'label', label: 'travel' },
    'fork,travel,suspension fork,front suspension,front travel,fork travel,front fork',
  ],
  [{ kind: 'mech' }, 'mech,mechs,rd,derailleur,derailleurs,derailer,rear mech,rear derailleur'],
  [
    { kind: 'pattern', value: 'uneven' },
    'asym,asymmetric,asymmetrical,uneven pattern,asym bcd,asymmetric bcd,uneven bcd,uneven spider,asym spider,asymmetric spider,asymmetrical spider,unevenly spaced,unequally spaced,not evenly spaced,not symmetric,not symmetrical,bolts not evenly spaced,irregular pattern',
  ],
  [{ kind: 'uneven' }, 'uneven,unequal'],
  [
    { kind: 'hub-gear' },
    'hub gear,hub gears,hub geared,gear hub,geared hub,internal gear hub,internal gears,internal gear,internal hub,internal hub gear,internal hub gears,internally geared,internally geared hub,igh,speed hub,speed hub gear,speed geared hub,speed gear hub,speed internal hub,speed internal gear hub,speed internally geared hub,speed igh',
  ],
  [
    { kind: 'pattern', value: 'even' },
    'sym,symmetric,symmetrical,symmetric bcd,even pattern,evenly spaced,equally spaced,even spacing,even spider,not asym,not asymmetric,not asymmetrical,non asym,not uneven,isnt asymmetric',
  ],
  [
    { kind: 'assist', value: 'mid-drive' },
    'mid drive,middrive,mid drive motor,mid motor,mid mounted motor,mid engine,centre motor,center motor,central motor,crank motor,crank drive motor,bottom bracket motor,bb motor,motor in the bottom bracket,motor at the bottom bracket,motor at the crank,motor at the cranks,motor by the cranks,motor on the cranks,mid drive ebike,mid drive e bike,mid drive kit,mid drive unit',
  ],
  [
    { kind: 'assist', value: 'hub' },
    'hub motor,hub drive,hub driven,hub motor ebike,hub motor e bike,hubmotor,rear hub motor,front hub motor,geared hub motor,direct drive hub,motor in the hub,motor in the rear hub,motor in the front hub,motor in the rear wheel,motor in the back wheel,motor in the front wheel,rear motor,front motor,rear wheel motor,front wheel motor,hub drive motor',
  ],
  [
    { kind: 'assist', value: 'yes' },
    'ebike,ebikes,e bike,e bikes,pedal assist,pedal assisted,pedal assistance,pedelec,pedelecs,s pedelec,speed pedelec,emtb,e mtb,electric bike,electric bicycle,electric mtb,electric mountain bike,electric assist,electric assisted,power assist,power assisted,motor,motorised,motorized,drive unit,electric motor',
  ],
  [
    { kind: 'assist', value: 'none' },
    'no motor,without motor,without a motor,no pedal assist,no assist,no ebike,not an ebike,not ebike,isnt an ebike,not an e bike,no e bike,not e bike,isnt an e bike,not electric,non electric,not a pedelec,no pedelec,unassisted,no electric motor,muscle powered,without assist',
  ],
  [
    { kind: 'not' },
    'no,not,non,without,isnt,hasnt,hasnt got,arent,wasnt,didnt,cant,wouldnt,dont,doesnt,dont have,doesnt have,lacks,never,nor,no more,aint,wont',
  ],
  [{ kind: 'present', back: true }, 'now,currently,presently,today,fitted,at the moment,at present,right now'],
  [{ kind: 'present', back: false }, 'current,present,existing,old,original,stock,already'],
  [{ kind: 'swap' }, 'swap,swapping,swapped,replace,replacing,exchange,trade,change,changing'],
  [
    { kind: 'unsure' },
    'if,whether,need,needs,should,sure,unsure,maybe,buy,do i need,would,might,unknown,clue,idea,must',
  ],
  [
    { kind: 'aside' },
    'hidden bolt,hidden arm,one hidden bolt,one bolt behind the crank,one bolt behind the arm,bolt behind the crank,bolt behind the arm,no suspension fork,no suspension forks,no front suspension,rigid fork,rigid forks,big big plus two,big big plus 2,in tandem with,uneven ground,uneven terrain,uneven trails,uneven road,uneven roads,uneven surface,uneven surfaces,uneven wear,ramps and pins,flat pedals,flat mount,granny ring bolts,flat tyre,a flat,drop bar mount,super wide,half link,pins and ramps,dropper,clutch noise,fat bike,gear cable,rear mech hanger,front mech,front derailleur,chain suck,drops chain,drops the chain,chain drops,chain dropped,dropped chain,spun out,spins out,spin out,cross chaining,back pedal,big gear,small gear,low gear,high gear,top gear,bottom gear,lowest gear,climbing gear,hard gear,easy gear,mid gear,steel frame,new chain,single speed,singlespeed,gear range,flat out,b screw,jockey wheels,jockey wheel,new bike,inch wheel size',
  ],
];

const SKIPPED = [
  'with for my our your his her bike bikes bicycle the a an of and at from is are was be been being it its this',
  'that these those i you we he she they can could will do does did have has had got get getting am ive id ill',
  'youre going make making convert conversion converting converted switch switching run running use using used',
  'like just about around approx approximately roughly circa nearly exactly only so then also but as by per each',
  'set setup up here there hi hello hey thanks thank cheers ok okay help some any what which how much many long',
  'wide size sizes sized says said road gravel commuter commuting mtb mountain xc trail trails touring tourer',
  'folder folding folded bmx city hybrid mtbike kids cyclocross cx enduro downhill winter summer',
  'riding ride rides ridden teeth tooth mm cm t x in inch inches or were why when where weighs kind type mounted',
  'model year home shop yes yep yeah all both still same good better best nice great little bit than plan whole',
  'kept keep keeping leave out off measured measures measure length lengths width total club local lbs wheeled',
  'wheeler tell sir madam dear fit fits fitting work works thing things job really very quite pretty well weight units',
  'weighing im lose losing take taking taken too know worth simple buy saved save saving washer washers torque show climb',
  'climbing need needs question questions answer links',
]
  .join(' ')
  .split(' ');

const PHRASES = new Map<string, Phrase[]>();

for (const [key, value, phrases] of FACTS) learn(phrases, { kind: 'fact', key, value });
for (const [label, phrases] of LABELS) learn(phrases, { kind: 'label', label });
for (const [meaning, phrases] of SETS) learn(phrases, meaning);
for (const word of SKIPPED) learn(word, { kind: 'skip' });
for (const list of PHRASES.values()) list.sort((one, other) => other.words.length - one.words.length);

function learn(phrases: string, meaning: Meaning): void {
  for (const phrase of phrases.split(',')) {
    const words = phrase.split(' ');
    const [first = ''] = words;
    const list = PHRASES.get(first);
    if (list === undefined) PHRASES.set(first, [{ words, meaning }]);
    else list.push({ words, meaning });
  }
}

/** The longest known phrase that starts at a word. */
export function phraseAt(words: readonly string[], at: number): Phrase | null {
  const list = PHRASES.get(words[at] ?? '');
  if (list === undefined) return null;
  for (const phrase of list) {
    let same = 1;
    while (same < phrase.words.length && phrase.words[same] === words[at + same]) same += 1;
    if (same === phrase.words.length) return phrase;
  }
  return null;
}
