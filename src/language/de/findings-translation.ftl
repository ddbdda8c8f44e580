## Regeln für Texte in mehreren Sprachen.
texts-block = ein übersetzter Schritt hat einen Block `texts`, dieser hat { $count }
    .way-out = den Schritt mit ```texts, `of:` und der Überschrift der Vorlage, ``` beenden
translation-of-nothing = es gibt keine Anweisung `{ $id }`, die zu übersetzen wäre
    .way-out = die Datei nach der Anweisung nennen und deren id in `of` schreiben
translation-out-of-step = dies ist `{ $of }`, aber `{ $id }` hat hier den Schritt `{ $wanted }`
    .way-out = jeden Schritt von `{ $id }` in seiner Reihenfolge übersetzen; hier: `of: { $wanted }`
translation-lacks-step = der Schritt `{ $slug }` von `{ $id }` ist nicht übersetzt
    .way-out = hinter diesen schreiben, mit `of: { $slug }` in seinem Block von Texten
translation-has-more = `{ $id }` hat keinen Schritt für `{ $title }`
    .way-out = den Schritt herausnehmen oder zuerst in die Vorlage schreiben
translation-texts-differ = `{ $title }`: `{ $key }` hat hier { $own } und in der Vorlage { $source }
    .way-out = jeden Text der Vorlage in ihrer Reihenfolge übersetzen und keinen hinzufügen
translation-lacks-value = `{ $title }` fehlt der Wert {"{{"} { $name } {"}}"} der Vorlage
    .way-out = {"{{"} { $name } {"}}"} dorthin setzen, wo die Zahl oder der Name steht
translation-adds-value = `{ $title }` zeigt {"{{"} { $name } {"}}"}, das die Vorlage nicht hat
    .way-out = herausnehmen oder zuerst in die Vorlage schreiben
translation-is-old = dies übersetzt Revision { $from } von `{ $id }`, gültig ist Revision { $revision }
    .way-out = mit der Vorlage vergleichen, nachziehen und `translates: { $revision }` schreiben; bis dahin sagt das Paket, dass es alt ist
procedure-not-translated = `{ $id }` ist nicht in `{ $tag }` übersetzt, das ein Auftrag verlangt
    .way-out = instructions/{ $folder }/{ $id }.md schreiben; bis dahin stehen die Schritte im Paket, wie sie sind
language-not-of-plant = `{ $tag }` ist keine Sprache, in der dieses Werk schreibt
    .way-out = `{ $tag }` in plant.yaml zu `languages` hinzufügen oder den Text herausnehmen
text-without-main = diesem Text fehlt die Hauptsprache des Werks, `{ $tag }`
    .way-out = `{ $tag }: ...` hinzufügen: er steht dort, wo eine Sprache fehlt
text-not-translated = { $count ->
    [one] dieser Text ist nicht in `{ $tag }` übersetzt, das ein Auftrag verlangt
   *[other] { $count } Texte dieser Datei sind nicht in `{ $tag }` übersetzt, das ein Auftrag verlangt; dies ist der erste
}
    .way-out = `{ $tag }: ...` neben die andere Sprache jedes Texts schreiben
