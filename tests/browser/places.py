"""Every page of the shop, once: where it is, who sees it, and what to do on it before it is looked at."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from playwright.sync_api import Page

EVERYBODY = ("apprentice", "trainer", "manager")
TEACHING = ("trainer", "manager")


@dataclass(frozen=True, slots=True)
class Place:
    """A page: its name, the rule of the app that serves it, its address over the facts of a house, and its seats.

    `then` is what a person does there before it is looked at; `status` is what the first answer says.
    """

    name: str
    rule: str
    address: str
    seats: tuple[str, ...]
    status: int = 200
    then: Callable[[Page], None] | None = None

    def at(self, facts: Mapping[str, str]) -> str:
        """The address in one house."""
        return self.address.format_map(facts)


def _press(words: str, **filled: str) -> Callable[[Page], None]:
    """Fill boxes by their names and press; the page then says what does not go."""

    def then(page: Page) -> None:
        for name, text in filled.items():
            page.locator(f'[name="{name.replace("__", ".")}"]').first.fill(text)
        page.locator("#page").get_by_role("button", name=words, exact=True).first.click()
        page.locator("#page .fault").first.wait_for()

    return then


def _unread(page: Page) -> None:
    page.locator('.box input[type="text"], .box input:not([type])').first.fill("about 5 or 6")
    page.locator("#page").get_by_role("button", name="Answer", exact=True).click()
    page.get_by_role("alert").first.wait_for()


def _judged(page: Page) -> None:
    page.get_by_role("radio").first.check()
    for box, text in zip(page.locator('input[name^="measure."]').all(), ("30", "twenty", "0.1"), strict=False):
        box.fill(text)
    page.get_by_role("button", name="Work out what was measured").click()
    page.locator("#judged").wait_for()


def _copies(page: Page) -> None:
    page.get_by_label("Skill", exact=True).select_option("ppe")
    _press("Make the checks", copies="0")(page)


def _open_all(page: Page) -> None:
    page.eval_on_selector_all("#page details", "all => all.forEach(one => { one.open = true })")


def _lapsed(page: Page) -> None:
    """The session ends while an answer is in the box, and the answer is sent."""
    page.locator(".box input").first.fill("12.5")
    page.context.clear_cookies(name="key")
    page.locator("#page").get_by_role("button", name="Write it down").click()
    page.get_by_role("heading", name="Who are you?").wait_for()


def _taken_up(page: Page) -> None:
    """The same, and its owner signs in again: the question stands there with what was typed."""
    _lapsed(page)
    page.get_by_role("button", name=re.compile("That is me ?: Lena Fisk")).click()
    page.get_by_label(re.compile("Your PIN")).fill("3358")
    page.get_by_role("button", name="Sign in").click()
    page.get_by_text("Still here from before").wait_for()


PLACES: tuple[Place, ...] = (
    Place("roster", "/sign-in", "/sign-in", ("nobody",)),
    Place("roster-nobody-found", "/sign-in", "/sign-in?find=xyzzy", ("nobody",)),
    Place("door-pin", "/sign-in/<int:number>", "/sign-in/{lena}", ("nobody",)),
    Place("door-passphrase-wrong", "/sign-in/<int:number>", "/sign-in/{odile}", ("nobody",),
          then=_press("Sign in", secret="not the right words")),
    Place("door-long-name", "/sign-in/<int:number>", "/sign-in/{long}", ("nobody",)),
    Place("session-lapsed", "/check/form/<int:form>/<int:item>", "/check/form/{form}/{unread_item}", ("apprentice",),
          then=_lapsed),
    Place("session-taken-up", "/check/form/<int:form>/<int:item>", "/check/form/{form}/{unread_item}", ("apprentice",),
          then=_taken_up),
    Place("secret", "/secret", "/secret", EVERYBODY),
    Place("today", "/", "/", (*EVERYBODY, "newcomer", "technician")),
    Place("module-open-check", "/module/<module>", "/module/bead-volume", ("apprentice",)),
    Place("module-waits", "/module/<module>", "/module/balancing", ("newcomer", "trainer")),
    Place("lesson", "/lesson/<module>/<lesson>", "/lesson/ratio-pairing/1-shares", ("apprentice",)),
    Place("lesson-figures", "/lesson/<module>/<lesson>", "/lesson/bead-volume/1-beads", ("newcomer",)),
    Place("lesson-hazard", "/lesson/<module>/<lesson>", "/lesson/ppe/2-masks", ("manager",)),
    Place("practice-number", "/practice/<draw>", "/practice/{draw_number}", ("apprentice",)),
    Place("practice-shelf", "/practice/<draw>", "/practice/{draw_shelf}", ("apprentice",)),
    Place("practice-table", "/practice/<draw>", "/practice/{draw_table}", ("apprentice",)),
    Place("practice-choice", "/practice/<draw>", "/practice/{draw_choice}", ("apprentice",)),
    Place("practice-order", "/practice/<draw>", "/practice/{draw_order}", ("apprentice",)),
    Place("practice-match", "/practice/<draw>", "/practice/{draw_match}", ("apprentice",)),
    Place("practice-unread", "/practice/<draw>", "/practice/{draw_number}", ("apprentice",), then=_unread),
    Place("practice-told-right", "/practice/<draw>", "/practice/{told_right}", ("apprentice",)),
    Place("practice-told-wrong", "/practice/<draw>", "/practice/{told_wrong}", ("apprentice",)),
    Place("check", "/check/form/<int:form>", "/check/form/{form}", ("apprentice",)),
    Place("check-unread", "/check/form/<int:form>/<int:item>", "/check/form/{form}/{unread_item}", ("apprentice",)),
    Place("check-list", "/check/form/<int:form>/list", "/check/form/{form}/list", ("apprentice",)),
    Place("check-list-unsure", "/check/form/<int:form>/list", "/check/form/{form}/list", ("apprentice",),
          then=_press("Hand it in")),
    Place("result-passed", "/check/form/<int:form>/result", "/check/form/{passed_form}/result", ("apprentice",)),
    Place("result-failed", "/check/form/<int:form>/result", "/check/form/{failed_form}/result", TEACHING),
    Place("sheets", "/sheets", "/sheets", TEACHING, then=_open_all),
    Place("sheet-choose", "/sheets/open", "/sheets/open", TEACHING),
    Place("sheet-judged", "/sheets/<int:number>/<skill>", "/sheets/{lena}/ratio-pairing", ("trainer",), then=_judged),
    Place("sheet-lacking", "/sheets/<int:number>/<skill>", "/sheets/{lena}/ratio-pairing", ("trainer",),
          then=_press("Sign it")),
    Place("sheet-parked", "/sheets/<int:number>/<skill>", "/sheets/{lena}/balancing", ("trainer",), then=_open_all),
    Place("sheet-not-yours", "/sheets/<int:number>/<skill>", "/sheets/{lena}/ratio-pairing", ("manager",)),
    Place("sheet-record", "/sheet/<int:number>", "/sheet/{sheet}", ("technician", *TEACHING), then=_open_all),
    Place("sheet-record-refused", "/sheet/<int:number>", "/sheet/{refused_sheet}", ("trainer",)),
    Place("matrix", "/matrix/", "/matrix/", TEACHING),
    Place("matrix-then", "/matrix/", "/matrix/?site=north&as_of=2026-09-01&known=then", ("manager",)),
    Place("matrix-empty", "/matrix/", "/matrix/?site=south&role=manager", ("manager",)),
    Place("matrix-wall", "/matrix/wall", "/matrix/wall", ("manager",)),
    Place("cell", "/matrix/<int:person>/<skill>", "/matrix/{ruth}/bead-volume", ("technician", *TEACHING),
          then=_open_all),
    Place("cell-withdrawn", "/matrix/<int:person>/<skill>", "/matrix/{caleb}/storage", ("manager",), then=_open_all),
    Place("cell-nothing", "/matrix/<int:person>/<skill>", "/matrix/{lena}/storage", ("apprentice",)),
    Place("cover", "/cover", "/cover", TEACHING),
    Place("cover-away", "/cover", "/cover?site=north&away={ruth}", ("manager",)),
    Place("jobs", "/jobs", "/jobs", ("trainer",)),
    Place("jobs-answered", "/jobs", "/jobs?job=bond-quarter-panel", ("manager",), then=_open_all),
    Place("office", "/office", "/office", TEACHING),
    Place("people", "/people", "/people", TEACHING),
    Place("people-fault", "/people", "/people", ("manager",),
          then=_press("Add", name="Somebody New", secret="12")),
    Place("person-own", "/people/<int:number>", "/people/{lena}", ("apprentice",)),
    Place("person", "/people/<int:number>", "/people/{ruth}", TEACHING, then=_open_all),
    Place("person-long-name", "/people/<int:number>", "/people/{long}", ("manager",)),
    Place("entitlements", "/entitlements", "/entitlements", ("manager",), then=_open_all),
    Place("certificates", "/certificates", "/certificates", TEACHING),
    Place("certificate", "/certificates/<int:number>", "/certificates/{certificate}", ("technician", "manager")),
    Place("certificate-check", "/c/<int:number>/<seal>", "/c/{certificate}/{seal}", ("nobody",)),
    Place("questions", "/questions", "/questions", TEACHING),
    Place("questions-statistics", "/questions/<skill>", "/questions/ppe", TEACHING),
    Place("question-preview", "/questions/<module>/<question>", "/questions/bead-volume/bond-line", TEACHING),
    Place("lookback", "/lookback", "/lookback", TEACHING),
    Place("lookback-person", "/lookback", "/lookback?person={ruth}", ("manager",), then=_open_all),
    Place("lookback-nothing", "/lookback", "/lookback?ticket=no-such-ticket", ("trainer",), status=404),
    Place("lookback-ticket", "/lookback", "/lookback?ticket={ticket}", TEACHING, then=_open_all),
    Place("lookback-many", "/lookback", "/lookback?material=Keel+adhesive", ("manager",)),
    Place("lesson-then", "/lookback/lesson/<on>/<module>/<lesson>", "/lookback/lesson/{ticket_day}/ppe/2-masks",
          ("manager",)),
    Place("tickets", "/tickets", "/tickets?day={ticket_day}", ("technician", *TEACHING), then=_open_all),
    Place("tickets-none", "/tickets", "/tickets", ("newcomer", "manager")),
    Place("tickets-fault", "/tickets", "/tickets", ("trainer",),
          then=_press("Write it down", ticket="T-1", used__1="much")),
    Place("stock", "/stock", "/stock?site=north", TEACHING, then=_open_all),
    Place("stock-none", "/stock", "/stock?site=south", ("manager",)),
    Place("month", "/month/<month>", "/month/{gap_month}?site=north", TEACHING),
    Place("month-nothing", "/month", "/month?month=2020-01", ("manager",)),
    Place("paper", "/paper", "/paper?form={paper}", TEACHING, then=_open_all),
    Place("paper-fault", "/paper", "/paper", ("trainer",), then=_copies),
    Place("paper-checks", "/paper/checks", "/paper/checks?form={paper}", ("trainer",)),
    Place("paper-keys", "/paper/keys", "/paper/keys?form={paper}", ("trainer",)),
    Place("paper-sheet", "/paper/sheet/<skill>", "/paper/sheet/balancing", ("trainer",)),
    Place("paper-entry", "/paper/<int:form>", "/paper/{paper}", ("trainer",)),
    Place("paper-entry-unread", "/paper/<int:form>", "/paper/{paper}", ("trainer",), then=_press("Mark it")),
    Place("changes", "/changes", "/changes", TEACHING),
    Place("earlier", "/questions/<module>/<question>/earlier", "/questions/ppe/hours-left/earlier", TEACHING),
    Place("reckon", "/reckon", "/reckon?sum=120/7", ("nobody", "apprentice")),
    Place("plan", "/plan", "/plan?site=north", TEACHING),
    Place("own-record", "/people/<int:number>/record", "/people/{lena}/record", ("apprentice", "manager")),
    Place("files", "/files", "/files", TEACHING),
    Place("people-import", "/people/import", "/people/import", ("manager",)),
    Place("sums", "/sums", "/sums", ("nobody", "apprentice")),
    Place("sum-blank", "/sums/<name>", "/sums/hardener_for", ("nobody",)),
    Place("sum-worked", "/sums/<name>", "/sums/hardener_for?v.0=120+mL&v.1=10:1+by+volume", ("nobody", "trainer")),
    Place("sum-unread", "/sums/<name>", "/sums/hardener_for?v.0=much&v.1=10:1", ("nobody",), status=422),
    Place("sum-rows", "/sums/<name>", "/sums/twa?v.0=20+ppm&v.1=4+h&v.2=35+ppm&v.3=2+h", ("nobody",)),
    Place("sum-asks", "/sums/<name>", "/sums/max_use?v.0=10&v.1=20+ppm&v.2=500+ppm", ("nobody",)),
    Place("not-found", "", "/no-such-page", ("nobody", "apprentice"), status=404),
    Place("not-yours", "/matrix/", "/matrix/", ("apprentice",), status=403),
    Place("broken", "", "/broken-on-purpose", ("trainer",), status=500),
)  # fmt: skip
"""Every page in every state that looks different. A page that is missing here fails a test."""

NO_PAGE = frozenset(
    {
        "/certificates/<int:number>/file",
        "/cover.<kind>",
        "/everything.zip",
        "/lapses.ics",
        "/lesson/<module>/image/<path:name>",
        "/lookback.csv",
        "/matrix.<kind>",
        "/matrix/heads.css",
        "/me",
        "/me/record",
        "/month/<month>.<kind>",
        "/people/<int:number>/record.json",
        "/plan.<kind>",
        "/sheet/<int:number>/photo",
        "/static/<path:filename>",
    }
)
"""What answers GET and is no page: files, pictures, and addresses that only lead on."""
