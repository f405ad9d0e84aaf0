#include "src/catalogue/sheet_words.h"

namespace hw::catalogue {

// Trade words as offices and shops write them above columns (common practice).
const std::array<FieldWords, sheet_field_count> field_words{{
    {SheetField::number, "number", "Number", "Nummer",
     "number partnumber partno partnr partsnumber itemnumber itemno itemcode articlenumber articleno articlenr "
     "materialnumber materialno stocknumber stockno stockcode sku teilenummer teilenr teilnummer teilnr artikelnummer "
     "artikelnr artnummer artnr materialnummer materialnr matnr sachnummer sachnr lagernummer lagernr identnummer "
     "identnr ident nummer nr no id"},
    {SheetField::title, "title", "Title", "Bezeichnung",
     "title description partdescription itemdescription partname itemname articlename designation bezeichnung "
     "benennung artikelbezeichnung teilebezeichnung teilbezeichnung materialbezeichnung artikelname materialkurztext "
     "kurztext name beschreibung artikel article teil part item material text"},
    {SheetField::unit, "unit", "Unit", "Einheit",
     "unit uom unitofmeasure unitofmeasurement units einheit mengeneinheit basismengeneinheit lagereinheit meinh me "
     "bme"},
    {SheetField::place, "place", "Place", "Lagerort",
     "place location storagelocation storagebin binlocation bin shelf rack lagerort lagerplatz lagerfach fach "
     "stellplatz regal regalfach platz ort"},
    {SheetField::on_hand, "on_hand", "On hand", "Bestand",
     "onhand quantityonhand qtyonhand stockonhand qoh instock stock stocklevel counted count bestand lagerbestand "
     "istbestand aktuellerbestand bestandist gezaehlt amlager vorrat quantity qty menge anzahl stueckzahl amount"},
    {SheetField::supplier, "supplier", "Supplier", "Lieferant",
     "supplier suppliername vendor vendorname preferredsupplier lieferant lieferantenname lieferantname hauptlieferant "
     "bezugsquelle kreditor"},
    {SheetField::reference, "reference", "Supplier's number", "Bestellnummer",
     "reference suppliersnumber supplierreference supplierpartnumber supplierpartno suppliersku supplieritemnumber "
     "supplierarticlenumber vendorpartnumber vendorpartno ordernumber orderno ordercode orderingcode bestellnummer "
     "bestellnr bestnr lieferantenartikelnummer lieferantenartikelnr lieferantenteilenummer artikelnummerlieferant "
     "artikelnrlieferant artikelnummerdeslieferanten bestellbezeichnung"},
    {SheetField::price, "price", "Price", "Preis",
     "price unitprice priceperunit priceeach netprice unitcost cost listprice preis einzelpreis stueckpreis nettopreis "
     "einkaufspreis ekpreis preisproeinheit preisjeeinheit preisprostueck listenpreis ek"},
    {SheetField::pack, "pack", "Pack", "Packung",
     "pack packsize packquantity packqty packagingunit packingunit packageunit vpe verpackungseinheit "
     "packungseinheit packungsgroesse packung gebindegroesse gebinde ve"},
    {SheetField::minimum, "minimum", "Minimum order", "Mindestbestellmenge",
     "minimum minimumorder minimumorderquantity minimumorderqty minorder minorderquantity minorderqty moq "
     "mindestbestellmenge mindestbestellung mindestabnahme mindestmenge mbm"},
    {SheetField::lead_days, "lead_days", "Lead time (days)", "Lieferzeit (Tage)",
     "leaddays leadtime leadtimedays leadtimeindays deliverytime deliverydays lieferzeit lieferzeittage "
     "lieferzeitintagen liefertage lieferfrist wiederbeschaffungszeit beschaffungszeit wbz"},
    {SheetField::shelf_life_days, "shelf_life_days", "Shelf life (days)", "Haltbarkeit (Tage)",
     "shelflifedays shelflife shelflifeindays haltbarkeit haltbarkeittage haltbarkeitstage haltbarkeitintagen "
     "mindesthaltbarkeit lagerfaehigkeit"},
    {SheetField::substitutes, "substitutes", "Substitutes", "Ersatz",
     "substitutes substitute alternatives alternative alternativepart alternateparts alternatepart replacement "
     "replacements ersatz ersatzartikel ersatzweise alternativteile alternativteil alternativen"},
    {SheetField::names, "names", "Other names", "Andere Namen",
     "names othernames alsocalled aliases alias searchterms anderenamen namen auchgenannt suchbegriffe suchbegriff"},
    {SheetField::wanted, "wanted", "Wanted chance", "Gewünschte Sicherheit",
     "wanted wantedchance servicelevel gewuenschtesicherheit gewuenscht servicegrad lieferbereitschaft"},
    {SheetField::failures_per_year, "failures_per_year", "Failures per year", "Ausfälle pro Jahr",
     "failuresperyear failuresayear failures ausfaelleprojahr ausfaellejejahr ausfaelle"},
    {SheetField::serial, "serial", "Serial numbers", "Seriennummern",
     "serial serialnumbers serialnumber serialised serialized seriennummern seriennummer seriennummernpflicht "
     "serialisiert mitseriennummer"},
    {SheetField::note, "note", "Note", "Notiz",
     "note notes remark remarks comment comments notiz notizen bemerkung bemerkungen anmerkung anmerkungen kommentar "
     "hinweis"},
}};

}  // namespace hw::catalogue
