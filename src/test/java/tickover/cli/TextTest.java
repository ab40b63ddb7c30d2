package tickover.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.google.gson.JsonObject;
import java.util.List;
import org.junit.jupiter.api.Test;

class TextTest {
    @Test
    void tableLinesUpWordsLeftAndNumbersRight() {
        TextTable table = new TextTable("Part", ">Order");
        table.row("idler", "1.9643");
        table.row("Bücher", "12.1");
        assertEquals(
                List.of("Part     Order", "------  ------", "idler   1.9643", "Bücher    12.1"),
                table.lines());
        assertThrows(IllegalArgumentException.class, () -> table.row("one"));
    }

    @Test
    void foldsBetweenWordsAndIndentsWhatFollows() {
        List<String> lines = Prose.fold("  - ", "word ".repeat(40));
        assertEquals(3, lines.size());
        assertTrue(lines.get(0).startsWith("  - word"), lines.get(0));
        assertTrue(lines.get(1).startsWith("    word"), lines.get(1));
        assertTrue(lines.stream().allMatch(l -> l.length() <= 88));
    }

    @Test
    void numbersKeepThreeDigitsThatMatter() {
        assertEquals("0", Prose.three(0));
        assertEquals("1234", Prose.three(1234.4));
        assertEquals("12.3", Prose.three(12.34));
        assertEquals("1.23", Prose.three(1.234));
        assertEquals("0.0123", Prose.three(0.01234));
        assertEquals("1.23e-05", Prose.three(0.0000123));
    }

    @Test
    void barHasTenMarks() {
        assertEquals("#########.", Prose.bar(0.93));
        assertEquals("..........", Prose.bar(0));
        assertEquals("##########", Prose.bar(1));
    }

    @Test
    void jsonRefusesWhatItCannotHold() {
        JsonObject o = new JsonObject();
        assertThrows(IllegalArgumentException.class, () -> Json.put(o, "x", Double.NaN));
        assertThrows(
                IllegalArgumentException.class,
                () -> Json.numbers(List.of(1.0, Double.POSITIVE_INFINITY)));
    }
}
