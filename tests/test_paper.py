"""Are blanks named, and is what is filled counted from the documents themselves?"""
from generator.pages.paper import Entry, Section, filled, filled_in_words, given, table, to_write, yes_no


def test_a_field_without_a_value_says_whom_to_ask() -> None:
    assert given("Telephone", "01632 960111", "the customer") == Entry("Telephone", "01632 960111")
    assert given("Telephone", "", "the customer") == Entry("Telephone", "",
                                                           "not given yet: ask the customer") == given("Telephone", None, "the customer")


def test_not_known_is_neither_yes_nor_no() -> None:
    assert [yes_no(one) for one in (True, False, None)] == ["yes", "no", ""]


def test_fields_and_columns_are_counted_as_given_or_blank() -> None:
    sections = (Section("a", "Parties", entries=(Entry("Customer", "A"), given("Insurer", "", "the customer"))),
                Section("b", "Places", table=table("Places", "Place", ("Coldest", "Warmest", "Wet"), [("Hall", "5 °C", "", "no"),
                                                                                                      ("Shed", "", "", "yes")])),
                Section("c", "Log", table=to_write("Log", "No.", ("What",), ("1", "2"))))
    one = filled(sections)
    assert one.given == ("Parties: Customer", "Places: Coldest (1 of 2)", "Places: Wet")
    assert one.blank == ("Parties: Insurer", "Places: Coldest (1 of 2)", "Places: Warmest", "Log: What")
    assert filled_in_words(one) == "3 fields given, 4 blank"


def test_an_empty_cell_of_what_is_known_says_so_and_room_to_write_is_empty() -> None:
    known = table("Places", "Place", ("Coldest",), [("Hall", "")], "not given yet: ask the surveyor").rows[0].cells[0]
    room = to_write("Log", "No.", ("What",), ("1",)).rows[0].cells[0]
    assert (known.value, known.blank) == ("", "not given yet: ask the surveyor") and (room.value, room.blank) == ("", "")
