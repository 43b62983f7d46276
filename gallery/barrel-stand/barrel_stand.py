"""A template of one's own: a stand for a small rain barrel, its bars as close as the barrel's foot asks for."""

from tubeframe.template import (
    INCH,
    EndKind,
    Frame,
    FrameBuilder,
    Knee,
    Shop,
    Template,
    Vec,
    a_count,
    a_length,
    a_tube_size,
    carries,
    knee_step,
    parameters,
    spread,
)


@parameters
class BarrelStandParameters:
    """What a stand for a barrel is made to."""

    side: float = a_length("outside of the legs, both ways", inch=(24, 27, 36), metric=(600, 680, 900))
    height: float = a_length(
        "ground to the bars' tops, for a can below the tap", inch=(18, 20, 30), metric=(450, 500, 760)
    )
    bars: int = a_count("under the barrel, between the outer ones", limits=(1, 2, 3))
    tube: str = a_tube_size(own="emt-1")


def lay_out(p: BarrelStandParameters, shop: Shop) -> Frame:
    """Lay the stand out."""
    frame = FrameBuilder(name="barrel stand", tube=p.tube)
    half = shop.outside(p.tube) / 2.0
    near, far, top = half, p.side - half, p.height - half
    for side, y in (("front", near), ("back", far)):
        for hand, x in (("left", near), ("right", far)):
            frame.tube(f"leg.{side}.{hand}", (Vec(x, y, 0), Vec(x, y, top)), ends=(EndKind.BASE_FLANGE, EndKind.JOINT))
        frame.tube(f"rail.{side}", (Vec(near, y, top), Vec(far, y, top)))
    for hand, x in (("left", near), ("right", far)):
        frame.tube(f"rail.{hand}", (Vec(x, near, top), Vec(x, far, top)))
    short = 6 * INCH
    long, room = short + knee_step(shop, p.tube), knee_step(shop, p.tube)
    places = spread(
        near + short, far - short, p.bars, (near + short, far - short), room, shop.pitch("tee", "tee", p.tube)
    )
    bars = [frame.tube(f"bar.{n}", (Vec(x, near, top), Vec(x, far, top))) for n, x in enumerate(places or (), start=1)]
    for side, y, inward in (("front", near, Vec(0, 1, 0)), ("back", far, Vec(0, -1, 0))):
        for hand, x, across in (("left", near, Vec(1, 0, 0)), ("right", far, Vec(-1, 0, 0))):
            corner, down, name = Vec(x, y, top), Vec(0, 0, -1), f"{side}.{hand}"
            Knee(name=f"knee.across.{name}", corner=corner, along=down, other=across, leg=short).lay(frame)
            Knee(name=f"knee.deep.{name}", corner=corner, along=down, other=inward, leg=long).lay(frame)
    carries(frame, "a full barrel", *bars)
    frame.supply("paving slab under a leg's flange", 4)
    return frame.build()


TEMPLATE = Template(
    name="barrel_stand", summary="a stand for a rain barrel", parameters=BarrelStandParameters, lay_out=lay_out
)
