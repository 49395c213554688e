"""A limit that counts days, months or years."""
from generator.calc.unknown import Unknown
from generator.model.profile import Profile


def counted(profile: Profile, name: str) -> int | Unknown:
    """A limit of whole days, months or years; half of one cannot be counted."""
    if name not in profile.limits:
        return Unknown(f"the profile has no limit {name}")
    value = profile.limits[name].value
    return int(value) if value == int(value) else Unknown(f"the limit {name} is {value:g}, and only whole ones can be counted")
