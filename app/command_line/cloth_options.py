"""The options that describe the cloth of a new project."""

import argparse

import msgspec

from app.command_line.option_values import add_length, number, stated_in
from core.draft.measures import USUAL_REPEAT, USUAL_STRIPE, usual_cloth
from core.model.cloth import Cloth, Repeat, Stripe


def add_cloth_options(parser: argparse.ArgumentParser) -> None:
    """Add the options that describe a cloth."""
    cloth = parser.add_argument_group("cloth")
    cloth.add_argument("--cloth-name", metavar="NAME")
    add_length(cloth, "--cloth-width", "selvedges included")
    add_length(cloth, "--selvedge", "on either side")
    add_length(cloth, "--cloth-length", "all there is (default: as much as it takes)")
    add_length(cloth, "--repeat", "width of one repeat of the stripes")
    add_length(cloth, "--stripe-width", "width of the stripe in it")
    cloth.add_argument("--stripe-colour", metavar="#RRGGBB")
    cloth.add_argument("--ground", metavar="#RRGGBB")
    cloth.add_argument("--tolerance", type=number, metavar="DEGREES", help="how far a panel may turn (default: 0.25)")
    cloth.add_argument("--two-way", action="store_true", help="panels may lie end for end")


def cloth_of(options: argparse.Namespace) -> Cloth:
    """The usual cloth with what the options say of it."""
    stated = {name.removeprefix("cloth_"): value for name, value in stated_in(options, _CLOTH).items()}
    if options.selvedge is not None:
        stated["selvedge"] = (options.selvedge, options.selvedge)
    if options.tolerance is not None:
        stated["grain_tolerance_deg"] = options.tolerance
    return msgspec.structs.replace(usual_cloth(), one_way=not options.two_way, repeat=_repeat(options), **stated)


_CLOTH = ("cloth_name", "cloth_width", "cloth_length")


def _repeat(options: argparse.Namespace) -> Repeat:
    width = USUAL_REPEAT.width if options.repeat is None else options.repeat
    stripe = Stripe(
        name=USUAL_STRIPE.name,
        at=width / 2,
        width=width * USUAL_STRIPE.width / USUAL_REPEAT.width if options.stripe_width is None else options.stripe_width,
        colour=options.stripe_colour or USUAL_STRIPE.colour,
    )
    return Repeat(width=width, ground=options.ground or USUAL_REPEAT.ground, stripes=(stripe,))
