"""The list of all rules, by family. A rule that is not named here is not asked."""
from dataclasses import dataclass

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.model.read_only import read_only
from generator.model.visibility import may_see
from generator.rules import (agreement, air, attributes, cables, cells, confirming, coverage, credentials, entries, exposed, fire, handover,
                             history, holdup, keyholders, links, monitoring, near, on_site, permits, places, power, radio, routes, serials, service,
                             slots, sounds, supervision, texts, times, transmission)
from generator.rules.acceptance import acceptance_unused, weighed
from generator.rules.finding import Finding, Severity, Verdict
from generator.rules.registry import Rule, ask
from generator.terms.audience import Audience


@dataclass(frozen=True)
class Family:
    """Rules about one subject, in the order in which they are asked."""

    name: str
    rules: tuple[Rule, ...]


# Families in the order of the work: what the unit can hold, what it shows, who uses it, how it hears, when it acts, whom it calls, and
# what was agreed about it.
FAMILIES = (
    Family("numbers", (slots.numbers_do_not_fit, slots.spare_short)),
    Family("texts", (texts.text_too_long, texts.text_not_in_alphabet, texts.text_not_unique, texts.text_names_person,
                     texts.text_names_child)),
    Family("doors", (entries.entry_not_timed,)),
    Family("users", (credentials.credential_unassigned, credentials.credential_shared, credentials.user_without_credential,
                     credentials.fob_number_differs)),
    Family("radio", (radio.one_way_must_receive, radio.repeater_hops, radio.repeater_full, links.link_short, links.no_link, near.receiver_near_metal,
                     supervision.supervision_long, supervision.last_message_old)),
    Family("times", (times.entry_time_long, times.entry_time_short, times.exit_time_outside, times.exit_time_unusual,
                     times.abort_time_outside, times.entry_and_abort_long, times.report_too_soon, times.trips_outside,
                     times.sounder_time_long, times.inside_sounder_time_long, times.sounder_time_short)),
    Family("zones", (attributes.always_on_left_out, attributes.always_on_omitted, attributes.entry_left_out,
                     attributes.partition_without_entry, attributes.partition_without_keypad, attributes.cannot_confirm,
                     attributes.setting_by_exit_time)),
    Family("hold-up", (holdup.hold_up_one_action, holdup.hold_up_place)),
    Family("fire", (fire.smoke_where_cooking,)),
    Family("monitoring", (monitoring.interval_missing, monitoring.interval_long, monitoring.account_form, monitoring.phone_line_ends,
                          monitoring.soak_time_unusual)),
    Family("keyholders", (keyholders.keyholders_few, keyholders.keyholders_few_audible, keyholders.keyholders_late,
                          keyholders.keyholders_late_audible, keyholders.keyholder_cannot_act)),
    Family("permits", (permits.permit_missing, permits.permit_ended, permits.licence_ended)),
    Family("agreement", (agreement.work_before_cancellation_end, agreement.insurer_not_known)),
    Family("history", (history.false_calls_reached, history.false_calls_near, history.assumption_changed)),
    Family("handover", (handover.authority_not_changed, handover.authority_not_known, handover.language_not_there)),
    Family("serials", (serials.serial_twice, serials.serial_form, serials.serial_not_captured)),
    Family("acceptances", (acceptance_unused,)),
    Family("power", (power.standby_short, power.fire_standby_short, power.recharge_slow, power.battery_does_not_fit, power.own_battery_short)),
    Family("cables", (cables.cable_drop,)),
    Family("cells", (cells.cell_spent_early,)),
    Family("transmission", (transmission.path_dies_with_mains, transmission.category_below, transmission.paths_fewer_than_asked,
                            transmission.paths_share_router)),
    Family("service", (service.service_interval_long, service.service_out_of_month, service.service_missed,
                       service.permit_ends_before_service, service.licence_ends_before_service, service.unit_past_date)),
    Family("air", (air.air_time_long, air.power_over_band)),
    Family("routes", (routes.entry_route_short, routes.entry_route_beyond, routes.exit_route_short, routes.entry_route_blocked,
                      routes.immediate_on_way_in, routes.keypad_outside)),
    Family("coverage", (coverage.opening_undetected, coverage.detector_disturbed, coverage.animal_heavy, coverage.animal_climbs, coverage.sleepers_way,
                        confirming.part_cannot_confirm, confirming.opening_unconfirmed, confirming.confirmed_farther_on)),
    Family("exposed", (exposed.keypad_exposed, exposed.sounder_in_reach)),
    Family("places", (places.place_outside_plate,)),
    Family("sounds", (sounds.bedroom_too_quiet,)),
    Family("site", (on_site.site_differs, on_site.site_swapped, on_site.site_conflict, on_site.site_signature)),
)
RULES: tuple[Rule, ...] = tuple(one for family in FAMILIES for one in family.rules)
RULE_OF = {one.id: one for one in RULES}
# Ids of rules that were taken out. They are never used again: an acceptance in an old job must not come to mean another thing.
RETIRED: tuple[str, ...] = ()
ORDER = tuple(Severity)


def judge(papers: Papers, results: Results, rules: tuple[Rule, ...] = RULES) -> tuple[Verdict, ...]:
    """The verdicts of rules in their order, weighed with the acceptances of the job as they stand on the day of the results.

    Rules are handed what can only be read: none of them can change what the next one sees.
    """
    seen, found = read_only(papers), read_only(results)
    asked = tuple(ask(one, seen, found) for one in rules if one is not acceptance_unused)
    own = weighed(asked, {one.id: one for one in rules}, tuple(papers.job.accepted), results.as_of)
    return (*own, *(ask(acceptance_unused, seen, own) for one in rules if one is acceptance_unused))


def rules_for(audience: Audience) -> tuple[Rule, ...]:
    """The rules that may speak to a reader: those that look at nothing which that reader may not see."""
    return tuple(one for one in RULES if all(may_see(audience, row) for row in one.reads))


def findings(verdicts: tuple[Verdict, ...]) -> tuple[Finding, ...]:
    """All findings: those nobody answers for first, the gravest before the others, then what could not be checked, then what was accepted;
    else in the order of the rules."""
    every = [finding for verdict in verdicts for finding in verdict.findings]
    return tuple(sorted(every, key=lambda finding: (finding.accepted is not None, finding.outcome != "found", ORDER.index(finding.severity))))


def acceptable() -> dict[str, str]:
    """Every rule by its id with the reason why its findings cannot be accepted; "" where they can."""
    return {one.id: one.firm for one in RULES}
