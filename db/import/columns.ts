import type { PartName } from '../../valuation/words.ts';
import { detailColumns } from './reference-details.ts';
import type { ImportKind } from './types.ts';

export interface OurColumn {
  name: string;
  required: boolean;
  help: string;
  /** Headings that other people give such a column. Common practice, no source. */
  known: string[];
}

const column = (name: string, help: string, known: string, required = false): OurColumn => ({
  name,
  required,
  help,
  known: known.split(',').filter(Boolean),
});

const maker = column(
  'maker',
  'who made it',
  'make,car make,merk,marca,mærke,märke,producent,fabbricante,fabricante,メーカー,make of car,toy maker,manufacturer,brand,made by,hersteller,fabricant,marque,marke',
);
const series = column(
  'series',
  'the range in which it was sold',
  'range,line,product line,serie,reihe,gamme',
);
const casting = column(
  'casting',
  'name of the casting or of one of its releases',
  'car,model,item,have,i have,owned,model name,car model,name of car,make/model,model/casting,casting/model,car/model,casting or model,description,name,title,object,casting name,vehicle,car name,what,toy,' +
    'modell,auto,fahrzeug,bezeichnung,wagen,modele,voiture,nom,modello,coche,vehiculo,auto model,modelo,naam,nome,nombre,navn,namn,nazwa,bil,品名,車名,名前,名称,モデル',
  true,
);
/**
 * Headings over a text that may as well be a name as a whole car in words; which of them it
 * is, its cells tell.
 */
const description = column(
  'description',
  'the car in words, such as "1968 Van purple C7"',
  'title,item,object,object name,particulars,article,goods,variant,variation,version,what,what it is,what is it,what i got,what i have,have,i have,owned,what it was,car,model,name,toy,listing,item description,description of item,lot description,line,text,' +
    'beschreibung,bezeichnung,artikel,titel,auto,fahrzeug,wagen,modell,modele,voiture,coche,modello,modelo,vehicle,car name,model name,titre,objet,titolo,titulo,descripcion,descrizione,omschrijving',
);
const releaseName = column(
  'release_name',
  'name under which it was sold',
  'release,sold as,issue name,verkauft als,vendu comme',
);
const releaseYear = column(
  'release_year',
  'year of the release, such as 1969 or 69',
  'year,years,yr,yr.,date made,date of manufacture,year made,issue year,year of release,model year,bj,bj.,jg,jg.,baujahr,bouwjaar,jahr,jahrgang,annee,an,anno,ano,jaar,release yr',
);
const colour = column(
  'colour',
  'name of the colour',
  'color,colours,colors,colourway,colorway,clr,colr,paint,paint colour,paint color,paint col,color/finish,colour/finish,body colour,body color,col,col.,colour name,color name,body,' +
    'farbe,lack,lackierung,couleur,peinture,teinte,colore,kleur,pintura,farve,farg,farge,kolor,cor,color,色,カラー,coloris',
);
const bodyFinish = column(
  'body_finish',
  'such as candy or enamel',
  'finish type,paint type,body paint,finish,lackart',
);
const basePaint = column(
  'base_paint',
  'none, front quarter, rear quarter or full',
  'base,base coat,underside paint,painted base,base painted,base painted?,boden lackiert,base colour,base color,base paint,baseplate,base plate,underside,bottom,underneath,' +
    'unterseite,boden,bodenplatte,chassis,socle,bodem,fondo',
);
const rearEnd = column(
  'rear_end',
  'type of the rear end',
  'rear,tail,rear type,rear end type,back end,back,rear lights,rear lamps,tail lamps,tail lights,lights,lamps,' +
    'heck,hinten,rucklichter,heckleuchten,arriere,feux,feux arriere',
);
const features = [
  column('roof', 'such as black or none', 'top,roof type,roof colour,roof color,dach,toit,tetto,techo'),
  column(
    'interior',
    'colour of the interior',
    'seats,interior colour,interior color,inside,int,int.,innen,innenraum,sitze,interieur,interni',
  ),
  column(
    'glazing',
    'tint of the glazing',
    'glass,windows,window tint,glass colour,glass color,windshield,windscreen,window,scheiben,fenster,verglasung,vitres,vitrage,vetri',
  ),
  column(
    'wheels',
    'type of the wheels',
    'wheel,wheel type,rims,tyres,tires,whls,rader,felgen,reifen,roues,jantes,ruote,ruedas,wielen',
  ),
  column(
    'accessory',
    'what else belongs to it',
    'accessories,extras,loose parts,extra,acc,acc.,zubehor,accessoire,accessoires,accessori',
  ),
  column(
    'country',
    'country on the base',
    'origin,made in,country of origin,base country,base,land,herkunft,pays,paese,pais',
  ),
];
const grade = column(
  'grade',
  'C1 to C10 in half points',
  'condition,cond,cond.,condn,cond n,zust,zust.,overall,overall grade,overall condition,c grade,rating,c,cnd,cnd.,gr,gr.,state,stars,score,shape,' +
    'zustand,note,cijfer,rapportcijfer,erhaltung,schulnote,etat,cote,stato,condizione,estado,staat,conditie,condizioni,conservazione,stand,skick,tilstand,stan,状態,コンディション',
);
const finishState = column(
  'finish_state',
  'original, touched up, restored, customised or stripped',
  'finish,state,paint state,repainted,repainted?,repaint,repaint?,resprayed,resprayed?,been painted,been painted?,painted?,restauriert,restauriert?,nachlackiert,nachlackiert?,restauree,restauree?,restaure,restaure?,repeinte,repeinte?,restaurado,restaurado?,restaurada,repintado,restaurato,restaurato?,riverniciato,gerestaureerd,gerestaureerd?,restaureret,renoverad,odnowiony,restoration status,restoration state,restoration stage,resto status,originality,restored?,original?,orig?,original paint?,original paint,orig paint,restored,condition,originalitat,originallack,paint,lack,lackierung,peinture,pintura',
);
const originalPaint = column(
  'is_original_paint',
  'yes where it wears the paint that it left the factory in',
  'original?,orig?,original paint?,original paint,orig paint,original finish,factory paint,originallack',
);
const wasSold = column(
  'was_sold',
  'yes where it was sold',
  'sold?,sold,is sold,sold yet?,gone?,disposed,disposed of,disposed of?,verkauft,verkauft?,vendu,vendu?,verkocht,verkocht?,venduto,venduto?,vendido,vendido?,solgt,solgt?,sald,sald?,sprzedane,sprzedane?,sprzedany',
);
const parts = [
  column(
    'missing_parts',
    'parts that were missing, separated by semicolons',
    'missing,lacks,parts missing,missing bits,bits missing,any bits missing,any bits missing?,anything missing,anything missing?,fehlteile,fehlende teile,pieces manquantes,piezas que faltan,piezas faltantes,pecas em falta,parti mancanti,pezzi mancanti,ontbrekende delen,manglende dele,incomplete,missing parts,fehlt,fehlend,manque,manquant,falta,faltan,faltas,faltantes,manca,mancante,mancanti,ontbreekt,ontbrekend',
  ),
  column(
    'reproduction_parts',
    'parts that were reproductions, separated by semicolons',
    'reproduction,repro,repro parts,reproductions,replaced parts,nachbau',
  ),
];
/**
 * Parts of a car, each with a column of its own: what stands there is said of the part as it is. Those that are a
 * feature of its variation as well have their states apart from that.
 */
export const partColumns = {
  body_state: 'body finish',
  roof_state: 'roof',
  base_state: 'base',
  glazing_state: 'glazing',
  interior_state: 'interior',
  wheels_state: 'wheels',
  accessory_state: 'accessory',
  casting_metal: 'casting metal',
  axles: 'axles',
  opening_parts: 'opening parts',
  bumpers: 'bumpers',
  headlamps: 'lamps',
  front_left_wheel: 'front left wheel',
  front_right_wheel: 'front right wheel',
  rear_left_wheel: 'rear left wheel',
  rear_right_wheel: 'rear right wheel',
  labels: 'labels',
} as const satisfies Record<string, PartName>;
const ofPart = (name: keyof typeof partColumns, known: string) =>
  column(name, `state of this part, such as "C7", "reproduction" or "missing"`, known);
/** Headings of how a part is, by its names. */
const conditionOf = (...names: string[]): string =>
  names
    .flatMap(name => ['condition', 'cond', 'grade', 'state', 'mark'].map(what => `${name} ${what}`))
    .join();
const partsAsTheyAre = [
  column(
    'parts',
    'state of parts, such as "axles: C3; wheels: C8, reproduction"',
    'part states,part grades,condition of parts',
  ),
  ofPart('body_state', conditionOf('body', 'paint', 'bodywork', 'finish')),
  ofPart('roof_state', conditionOf('roof', 'top')),
  ofPart('base_state', conditionOf('base', 'baseplate', 'underside')),
  ofPart('glazing_state', conditionOf('glass', 'glazing', 'windows', 'windshield', 'windscreen')),
  ofPart('interior_state', conditionOf('interior', 'seats')),
  ofPart('wheels_state', conditionOf('wheels', 'wheel', 'tyres', 'tires')),
  ofPart('accessory_state', conditionOf('accessory', 'accessories')),
  ofPart('casting_metal', 'metal,metal condition,condition of the metal,state of the metal'),
  ofPart('axles', 'axle,axle condition,achsen,essieux,assi,ejes,assen'),
  ofPart('opening_parts', 'opening features,doors,hood,bonnet,trunk,boot,tailgate'),
  ofPart('bumpers', 'bumper,stossstange,stossstangen,pare chocs,paraurti,bumper condition'),
  ofPart('headlamps', 'headlights,headlamp,headlight,front lamps,front lights,scheinwerfer,phares,koplampen'),
  ofPart('front_left_wheel', 'fl wheel,lf wheel,left front wheel,wheel fl,wheel front left,front left'),
  ofPart('front_right_wheel', 'fr wheel,rf wheel,right front wheel,wheel fr,wheel front right,front right'),
  ofPart('rear_left_wheel', 'rl wheel,lr wheel,left rear wheel,wheel rl,wheel rear left,rear left'),
  ofPart('rear_right_wheel', 'rr wheel,right rear wheel,wheel rr,wheel rear right,rear right'),
  ofPart('labels', 'label,stickers,decals,aufkleber,autocollants'),
  column(
    'packaging',
    'box, card or bag that it comes with, such as "box" or "reproduction card"',
    'box,boxed,in box,boxed?,box?,loose/carded,loose or carded,carded/loose,carded,carded?,loose/boxed,boxed/loose,loose or boxed,loose?,original box,package,packing,pkg,pkging,carton,karton,blister,verpackung,ovp,schachtel,emballage,boite,confezione,embalaje,caja,scatola,verpakking,doos,æske,kartong,emballasje,pudelko,pudełko,opakowanie,caixa,embalagem,箱,箱の有無,パッケージ',
  ),
  column(
    'packaging_grade',
    'its own grade, C1 to C10',
    'box condition,box grade,box cond,zustand karton,zustand box,zustand ovp,zustand schachtel,zustand verpackung,kartonzustand,etat boite,etat de la boite,estado caja,estado de la caja,estado da caixa,stato scatola,staat doos,condition of box,condition of the box,card condition,packaging condition,blister condition',
  ),
];
const notes = column(
  'notes',
  'anything else',
  'note,rmk,rmks,comments,comment,restoration notes,repair notes,condition notes,work done,restorer,restored by,restorer s mark,restorers mark,mark,bearings,bearing,bearing type,remarks,remark,details,notes / faults,faults,problems,' +
    'bemerkung,bemerkungen,notiz,notizen,anmerkung,anmerkungen,remarque,remarques,commentaire,commentaires,observations,opmerking,opmerkingen,osservazioni,notas,note e osservazioni,obs,obs.,observacoes,observaciones,bemærkning,bemærkninger,merknad,merknader,anmarkning,anmarkningar,anteckningar,uwagi,notatki,備考,メモ,コメント',
);

/** What tells which variation a row is of, as the lists of cars and of the reference name it. */
const variation = [
  maker,
  series,
  casting,
  description,
  releaseName,
  releaseYear,
  colour,
  bodyFinish,
  basePaint,
  rearEnd,
  ...features,
];

/**
 * The columns that each kind of import knows, in their order, with the other headings by which
 * they are recognised.
 */
export const ourColumns: Record<ImportKind, OurColumn[]> = {
  lot: [
    column(
      'inventory_number',
      'your number of the car; left out, the next free one is given',
      'no,no.,nr,nr.,number,#,id,inv,inv no,inv no.,inventory no,inventory no.,inventory,item no,item no.,item number,item #,inv #,stock #,car #,asset id,asset no,asset number,car no,car number,entry,entry no,serial,serial no,sr no,sl no,s no,stock number,tag,' +
        'nummer,lfd nr,lfd. nr.,numero,num,n°,nº,n.º,volgnummer,ref no,my ref,sku,stock no,stock code,accession,accession no,accession number',
    ),
    ...variation,
    grade,
    finishState,
    originalPaint,
    column('lot', 'name of the lot of this collection that it belongs to; import the list of lots first', ''),
    wasSold,
    column(
      'status',
      'kept, on the bench or donor; or "seen, not bought"',
      'use,order status,disposition,sold/kept,kept/sold,sold or kept,kept or sold,keep/sell,keep or sell',
    ),
    column(
      'is_owned',
      'yes where you have the car; a row without it is not taken',
      'have,have it,have it?,i have,i have it,do i have it,owned,owned?,own,own it,own it?,got,got it,got it?,have?,got?,collected,in collection,in collection?,in my collection,habe,habe ich,vorhanden,possede',
    ),
    column(
      'location',
      'where it is kept',
      'place,loc,loc.,where,lagerplatz,where is it,cabinet,position,shelf,box,bin,drawer,stored,storage,kept in,kept,case,tray,lagerort,ort,regal,kiste,schublade,standort,platz,aufbewahrung,rangement,emplacement,lieu,ubicacion,lugar,posizione,collocazione,luogo,plaats,locatie,caja,scatola,doos,plank,kast,scaffale,estante,prateleira,hylde,hylla,hylle,polka,półka,miejsce,場所,保管場所',
    ),
    column(
      'quantity',
      'how many of it',
      'qty,qty.,have,owned,own,count,anz,x,no of cars,number of,how many,pcs,pieces,anzahl,stuck,stk,stk.,menge,quantite,qte,nombre',
    ),
    column(
      'price_paid',
      'what was paid for it',
      'paid,pd,pd.,amt,amount,amount paid,price,cost,gave,i gave,spent,cost each,price each,paid each,price per car,each,bought for,purchase price,price paid,cost me,i paid,bought,purchased,' +
        'preis,kaufpreis,bezahlt,gekauft,gekauft fur,ek,einkauf,einkaufspreis,prix,paye,prix paye,prix d achat,achete,prezzo,precio,prijs,aankoopprijs,betaald,pagato,pagado,pris,købspris,kopspris,inkopspris,betalt,cena,cena zakupu,preco,preco pago,precio de compra,prezzo d acquisto,prezzo di acquisto,購入価格,価格,値段,購入額',
    ),
    column(
      'price_paid_currency',
      'ISO 4217 code of what was paid',
      'currency,cur,ccy,curr,curr.,wahrung,devise',
    ),
    column(
      'bought_on',
      'day on which it was bought',
      'bought,date,when,date acquired,date acq,dt acq,dt,date of purchase,purchased,purchase date,date bought,bought on,acquired,acquired on,got it,when bought,received,date received,rcvd,recd,aankoopdatum,' +
        'datum,gekauft,gekauft am,kaufdatum,date d achat,achete,achete le,data,fecha,gekocht,gekocht op,data acquisto,data d acquisto,data di acquisto,acquistato,fecha de compra,comprado,comprado em,comprado el,data de compra,data zakupu,købt,købsdato,kopt,kopdatum,kjøpt,dato,dag,購入日,日付',
    ),
    column(
      'seller',
      'who it was bought from',
      'from,frm,bought from,gek bei,where,where from,where bought,source,vendor,dealer,seller,got from,bought at,src,bei,von,gekauft von,verkaufer,handler,vendeur,achete a,chez,verkoper,gekocht bij,venditore,vendedor,sælger,saljare,selger,sprzedawca,sprzedajacy,sprzedający,購入先',
    ),
    column(
      'own_estimate',
      'what you think that it would bring, such as 40 or 60-90',
      'my estimate,estimate,est,est.,my value,value,worth,worth to me,estimated value,guess,my guess,est value,est. value,' +
        'wert,schatzwert,schatzung,geschatzter wert,valeur,estimation,valore,valor',
    ),
    column(
      'sold_on',
      'day on which you sold it',
      'sold,sold at,date sold,sold date,sale date,disposal date,date of disposal,disposed on,verkauft,verkauft am,vendu,vendu le,verkaufsdatum,verkoopdatum,verkocht op,data vendita,data di vendita,fecha de venta,data da venda,data de venda,salgsdato,data sprzedazy,data sprzedaży,date de vente',
    ),
    column(
      'sold_for',
      'what it brought you',
      'sold,sold at,sale price,sold price,disposal proceeds,proceeds,disposal price,brought,got for it,verkauft,verkauft fur,verkaufspreis,vk,erlos,verkaufserlos,vendu,vendu pour,prix de vente,verkoopprijs,verkocht voor,prezzo vendita,prezzo di vendita,precio de venta,preco de venda,salgspris,forsaljningspris,cena sprzedazy,cena sprzedaży',
    ),
    ...parts,
    ...partsAsTheyAre,
    column('documented_on', 'day on which its parts were looked at', 'checked on,date checked,day of check'),
    column(
      'worn_colour',
      'the colour that it wears now, where it was painted again',
      'worn color,painted now',
    ),
    column('worn_finish', 'the kind of finish that it wears now, where it was painted again', ''),
    column('restorer_mark', "the restorer's mark on it", ''),
    column('purchase_left_out', 'why what was paid for it is left out of estimates, or "yes"', ''),
    notes,
  ],
  reference: [
    ...variation,
    column('rarity', 'common, uncommon, scarce or rare', 'scarcity,how rare,seltenheit,rarete'),
    ...detailColumns.map(({ name, help }) => column(name, help, '')),
    column('look_at', 'what to look at on parts, such as "roof: cracks; axles: straight"', 'look at'),
    column(
      'feature_values',
      'values that features can take, such as "wheels: spoked, solid; roof: black"',
      'feature values',
    ),
    column('swatch', 'the colour on screen, such as #2a8a86', 'colour swatch,color swatch'),
    column('parts', 'what is known of parts, such as "axles: 1.10 mm; wheels: 9.4 mm"', 'part details'),
  ],
  sales: [
    column(
      'sold_on',
      'day of the sale',
      'sold,date,sale date,date sold,sold date,end date,ended,day,when,sale day,datum,verkauft,verkauft am,vendu le,verkaufsdatum,date vente,date de vente,data,data vendita,fecha,fecha de venta,verkoopdatum,dato,salgsdato,data sprzedaży,data da venda,落札日,販売日,日付',
      true,
    ),
    column(
      'price',
      'what it brought',
      'sold for,sold,amount,sale price,hammer,hammer price,paid,value,realised,realized,sold price,total,price realised,price realized,went for,brought,got,fetched,made,result,final,final price,sold at,preis,verkaufspreis,zuschlag,prix,prix de vente,adjudication,prix d adjudication,prezzo,precio,preco,prijs,pris,cena,落札価格,価格,販売価格',
      true,
    ),
    wasSold,
    column('currency', 'ISO 4217 code such as USD', 'cur,ccy,curr,curr.,money,wahrung,devise'),
    casting,
    description,
    releaseName,
    releaseYear,
    colour,
    bodyFinish,
    basePaint,
    rearEnd,
    ...features,
    grade,
    finishState,
    ...parts,
    column(
      'source',
      'kind of source, such as auction or dealer',
      'venue,seen,seen at,where,where sold,place,market,seller,quelle,wo,ou,lieu,maison,dove,lugar,waar,waar verkocht,hvor,plats,gdzie,onde,場所',
    ),
    column(
      'reference',
      'what finds the record again',
      'ref,ref.,lot,lot no,lot no.,lot number,lot #,lot nr,lot nr.,link,url,auction lot,listing,invoice',
    ),
    column('reliability_percent', 'how far you trust it, 0 to 100', 'reliability'),
    column('excluded', 'yes where it is left out of estimates', 'left out'),
    column('excluded_why', 'why it is left out', ''),
    column('own_sale', 'yes where it is a sale of your own, which comes with its car', ''),
    notes,
  ],
};
