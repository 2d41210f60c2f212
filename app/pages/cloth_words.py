"""What a cloth is, what is odd about it and what was done to it, in words."""

import msgspec

from app.pages.lengths import MM, LengthUnit
from app.words import tr
from core.errors import BadInput
from core.model.cloth import Cloth, Repeat, Way
from core.model.project import Project
from core.model.validate import check_fits, validate


def cloth_in_words(cloth: Cloth, unit: LengthUnit = MM) -> str:
    """Width, length, repeat, one line."""
    parts = [tr("{width} wide").format(width=unit.told(cloth.width))]
    if cloth.remnant:
        parts.append(tr("a remnant, to {end}").format(end=unit.told(cloth.end or 0.0)))
    elif cloth.length is None:
        parts.append(tr("as much as it takes"))
    else:
        parts.append(tr("{length} long").format(length=unit.told(cloth.length)))
    if not cloth.ways:
        parts.append(tr("plain"))
    names = {"lengthwise": tr("repeat {width}, {kind}"), "crosswise": tr("bars {width}, {kind}")}
    for way in cloth.ways:
        if repeat := cloth.repeat_of(way):
            kind = tr("even") if repeat.even else tr("uneven")
            parts.append(names[way].format(width=unit.told(repeat.width), kind=kind))
    if cloth.one_way:
        parts.append(tr("one-way"))
    return ", ".join(parts)


def ways_in_words(cloth: Cloth, unit: LengthUnit = MM) -> str:
    """What `repeat_in_words` says of the stripes and of the bars, each on a line of its own."""
    found = {way: repeat_in_words(repeat, unit) for way in cloth.ways if (repeat := cloth.repeat_of(way))}
    if len(found) < 2:
        return "".join(found.values())
    names: dict[Way, str] = {"lengthwise": tr("Stripes: {words}"), "crosswise": tr("Bars: {words}")}
    return "\n".join(names[way].format(words=words) for way, words in found.items())


def repeat_in_words(repeat: Repeat, unit: LengthUnit = MM) -> str:
    """Whether it is even, which axis is matched, and its true period."""
    axis = unit.told(repeat.axis % repeat.width)
    if repeat.even:
        told = tr("Even: it is its own mirror image; the axis that is matched lies at {axis}.")
    else:
        told = tr("Uneven: it has no mirror axis; the middle of {name}, at {axis}, is matched.")
    mirror = told.format(axis=axis, name=repeat.lead_stripe.name)
    if abs(repeat.period - repeat.width) < 1e-6:
        return f"{mirror} {tr('True period {period}.').format(period=unit.told(repeat.period))}"
    told = tr("True period {period}: the pattern comes back {times} times in a repeat.")
    return f"{mirror} {told.format(period=unit.told(repeat.period), times=round(repeat.width / repeat.period))}"


def odd_with(project: Project, cloths: tuple[Cloth, ...]) -> list[str]:
    """What is odd about a project if its cloths were these."""
    changed = msgspec.structs.replace(project, cloths=cloths)
    try:
        validate(changed)
        check_fits(changed)
    except BadInput as error:
        return [str(error)]
    return []


def change_of(before: tuple[Cloth, ...], after: tuple[Cloth, ...]) -> str:
    """What was done to cloths, as a step to undo."""
    if len(after) > len(before):
        return tr("Add {title}").format(title=after[-1].title)
    if len(after) < len(before):
        return tr("Take a cloth out")
    changed = [new.title for old, new in zip(before, after, strict=True) if old != new]
    return tr("Change {cloth}").format(cloth=changed[0]) if len(changed) == 1 else tr("Change the cloths")
