package tickover.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class PartWordsTest {
    private static final List<String> KNOWN =
            List.of("crank", "water-pump", "idler-1", "belt:main", "injector-2", "valve-train");

    @Test
    void namesReadAsWords() {
        assertEquals("the water pump", PartWords.the("water-pump"));
        assertEquals("the valve cover", PartWords.the("valve-cover"));
        assertEquals("the valve train", PartWords.the("valve-train"));
        assertEquals("the steering pump", PartWords.the("steering_pump"));
        assertEquals("The water pump", PartWords.start("water-pump"));
    }

    @Test
    void numberedPartsTakeNoArticle() {
        assertEquals("injector 2", PartWords.the("injector-2"));
        assertEquals("Injector 2", PartWords.start("injector-2"));
        assertEquals("idler 1", PartWords.the("idler-1"));
    }

    @Test
    void beltsAreCalledBelts() {
        assertEquals("the main belt", PartWords.the("belt:main"));
        assertEquals("main belt", PartWords.plain("belt:main"));
        assertEquals("belt 2", PartWords.the("belt:2"));
        assertEquals("the fan belt", PartWords.the("belt:fan belt"));
        assertEquals("the belt", PartWords.the("belt:belt"));
    }

    @Test
    void freeTextIsLeftAsItIs() {
        assertEquals("the bolt by the tensioner", PartWords.the("the bolt by the tensioner"));
        assertEquals("the left bracket - low", PartWords.the("left bracket - low"));
        assertEquals("", PartWords.the(""));
        assertEquals("the <b>idler</b>", PartWords.the("<b>idler</b>"));
    }

    /** Without the mark, two of them with an arrow between change places. */
    @Test
    void namesWrittenFromTheRightEndWhereTheyEnd() {
        String pump = "\u05DE\u05E9\u05D0\u05D1\u05D4";
        assertEquals(pump + "\u200E", PartWords.plain(pump));
        assertEquals(pump + " 2\u200E", PartWords.the(pump + "-2"));
        assertEquals("the " + pump + "\u200E belt", PartWords.the("belt:" + pump));
        assertEquals(Optional.of(pump), PartWords.find(PartWords.the(pump), List.of(pump)));
    }

    @Test
    void listsReadAsASentenceDoes() {
        assertEquals("the idler", PartWords.list(List.of("idler"), "or"));
        assertEquals(
                "the idler, the water pump and injector 2",
                PartWords.list(List.of("idler", "water-pump", "injector-2"), "and"));
    }

    @Test
    void partsAreFoundByNameAndByWord() {
        assertEquals(Optional.of("water-pump"), PartWords.find("water-pump", KNOWN));
        assertEquals(Optional.of("water-pump"), PartWords.find("the Water  pump", KNOWN));
        assertEquals(Optional.of("belt:main"), PartWords.find("main belt", KNOWN));
        assertEquals(Optional.of("injector-2"), PartWords.find("injector 2", KNOWN));
        assertEquals(Optional.empty(), PartWords.find("pump", KNOWN));
    }

    @Test
    void wordsThatFitTwoNamesFindNeither() {
        assertEquals(
                Optional.empty(),
                PartWords.find("water pump", List.of("water-pump", "water_pump")));
        assertEquals(
                Optional.of("water_pump"),
                PartWords.find("water_pump", List.of("water-pump", "water_pump")));
    }
}
