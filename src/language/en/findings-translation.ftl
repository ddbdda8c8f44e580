## Rules of texts in several languages.
texts-block = a translated step has one block marked `texts`, this one has { $count }
    .way-out = end the step with ```texts, `of:` and the heading of the source, ```
translation-of-nothing = there is no procedure `{ $id }` to translate
    .way-out = name the file after the procedure, and write its id into `of`
translation-out-of-step = this is `{ $of }`, but here `{ $id }` has the step `{ $wanted }`
    .way-out = translate each step of `{ $id }` in its order; here: `of: { $wanted }`
translation-lacks-step = the step `{ $slug }` of `{ $id }` is not translated
    .way-out = write it behind this one, with `of: { $slug }` in its block of texts
translation-has-more = `{ $id }` has no step for `{ $title }`
    .way-out = take the step out, or write it into the source first
translation-texts-differ = `{ $title }`: `{ $key }` has { $own } here and { $source } in the source
    .way-out = translate each text of the source, in its order, and add none
translation-lacks-value = `{ $title }` lacks the value {"{{"} { $name } {"}}"} of the source
    .way-out = put {"{{"} { $name } {"}}"} where the number or the name belongs
translation-adds-value = `{ $title }` shows {"{{"} { $name } {"}}"}, which the source does not
    .way-out = take it out, or write it into the source first
translation-is-old = this translates revision { $from } of `{ $id }`, which is at revision { $revision }
    .way-out = compare it with the source, mend it, and write `translates: { $revision }`; until then the packet says that it is old
procedure-not-translated = `{ $id }` is not translated into `{ $tag }`, which a job asks for
    .way-out = write instructions/{ $folder }/{ $id }.md; until then its steps stand in the packet as they are
language-not-of-plant = `{ $tag }` is not a language that this plant writes
    .way-out = add `{ $tag }` to `languages` in plant.yaml, or take the text out
text-without-main = this text lacks the main language of the plant, `{ $tag }`
    .way-out = add `{ $tag }: ...`: it is shown where a language is missing
text-not-translated = { $count ->
    [one] this text is not translated into `{ $tag }`, which a job asks for
   *[other] { $count } texts of this file are not translated into `{ $tag }`, which a job asks for; this is the first
}
    .way-out = write `{ $tag }: ...` beside the other language of each text
