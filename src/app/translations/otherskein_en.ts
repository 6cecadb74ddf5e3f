<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="en" sourcelanguage="en">
<context>
    <name>otherskein::app::CandidateModel</name>
    <message numerus="yes">
        <source>  (and %n more)</source>
        <translation>
            <numerusform>  (and %n more)</numerusform>
            <numerusform>  (and %n more)</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::KeyStrip</name>
    <message numerus="yes">
        <source>%1 %2 · %n stitches</source>
        <translation>
            <numerusform>%1 %2 · %n stitch</numerusform>
            <numerusform>%1 %2 · %n stitches</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::LabPlot</name>
    <message numerus="yes">
        <source>Wanted %1: L* %2, a* %3, b* %4; %n candidates around it</source>
        <translation>
            <numerusform>Wanted %1: L* %2, a* %3, b* %4; %n candidate around it</numerusform>
            <numerusform>Wanted %1: L* %2, a* %3, b* %4; %n candidates around it</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::QuestionPanel</name>
    <message numerus="yes">
        <source>%n plies</source>
        <translation>
            <numerusform>%n ply</numerusform>
            <numerusform>%n plies</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 of %2: %n stitches</source>
        <translation>
            <numerusform>%1 of %2: %n stitch</numerusform>
            <numerusform>%1 of %2: %n stitches</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::SubstitutePlace</name>
    <message numerus="yes">
        <source>%n substitutes</source>
        <translation>
            <numerusform>%n substitute</numerusform>
            <numerusform>%n substitutes</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>of %n threads</source>
        <translation>
            <numerusform>of %n thread</numerusform>
            <numerusform>of %n threads</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n rows of the key read.</source>
        <translation>
            <numerusform>%n row of the key read.</numerusform>
            <numerusform>%n rows of the key read.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::ChartsPlace</name>
    <message numerus="yes">
        <source>%Ln symbols look like another one: “All symbols” joins them.</source>
        <translation>
            <numerusform>%Ln symbol looks like another one: “All symbols” joins them.</numerusform>
            <numerusform>%Ln symbols look like another one: “All symbols” joins them.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%Ln cells are doubtful.</source>
        <translation>
            <numerusform>%Ln cell is doubtful.</numerusform>
            <numerusform>%Ln cells are doubtful.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 (and %n more files refused)</source>
        <translation>
            <numerusform>%1 (and %n more file refused)</numerusform>
            <numerusform>%1 (and %n more files refused)</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n charts are open.</source>
        <translation>
            <numerusform>%n chart is open.</numerusform>
            <numerusform>%n charts are open.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::KeyModel</name>
    <message numerus="yes">
        <source>%Ln lines</source>
        <translation>
            <numerusform>%Ln line</numerusform>
            <numerusform>%Ln lines</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n strands</source>
        <translation>
            <numerusform>%n strand</numerusform>
            <numerusform>%n strands</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::KeyPage</name>
    <message numerus="yes">
        <source>%Ln stitches</source>
        <translation>
            <numerusform>%Ln stitch</numerusform>
            <numerusform>%Ln stitches</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n threads</source>
        <translation>
            <numerusform>%n thread</numerusform>
            <numerusform>%n threads</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n symbols</source>
        <translation>
            <numerusform>%n symbol</numerusform>
            <numerusform>%n symbols</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::MotifModel</name>
    <message numerus="yes">
        <source>%Ln stitches</source>
        <translation>
            <numerusform>%Ln stitch</numerusform>
            <numerusform>%Ln stitches</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::MotifPage</name>
    <message numerus="yes">
        <source>%Ln motifs</source>
        <translation>
            <numerusform>%Ln motif</numerusform>
            <numerusform>%Ln motifs</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Join %n motifs</source>
        <translation>
            <numerusform>Join %n motif</numerusform>
            <numerusform>Join %n motifs</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n motifs chosen.</source>
        <translation>
            <numerusform>%n motif chosen.</numerusform>
            <numerusform>%n motifs chosen.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::AlternativesModel</name>
    <message numerus="yes">
        <source>%n threads</source>
        <translation>
            <numerusform>%n thread</numerusform>
            <numerusform>%n threads</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>ColourwayRows</name>
    <message numerus="yes">
        <source>%n motifs</source>
        <translation>
            <numerusform>%n motif</numerusform>
            <numerusform>%n motifs</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::ColourwayModel</name>
    <message numerus="yes">
        <source>%1: %2 instead of %3
%4, ΔE00 %5
%6, %n stitches</source>
        <translation>
            <numerusform>%1: %2 instead of %3
%4, ΔE00 %5
%6, %n stitch</numerusform>
            <numerusform>%1: %2 instead of %3
%4, ΔE00 %5
%6, %n stitches</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1: %2 instead of %3, ΔE00 %4, %5. %n stitches, %6</source>
        <translation>
            <numerusform>%1: %2 instead of %3, ΔE00 %4, %5. %n stitch, %6</numerusform>
            <numerusform>%1: %2 instead of %3, ΔE00 %4, %5. %n stitches, %6</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::FiguresPanel</name>
    <message numerus="yes">
        <source>and %n more pairs</source>
        <translation>
            <numerusform>and %n more pair</numerusform>
            <numerusform>and %n more pairs</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::RecolourHeader</name>
    <message numerus="yes">
        <source>%n motifs</source>
        <translation>
            <numerusform>%n motif</numerusform>
            <numerusform>%n motifs</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n motifs: few</source>
        <translation>
            <numerusform>%n motif: few</numerusform>
            <numerusform>%n motifs: few</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::MoreOptions</name>
    <message numerus="yes">
        <source>Look among %1 of %n cards</source>
        <translation>
            <numerusform>Look among %1 of %n card</numerusform>
            <numerusform>Look among %1 of %n cards</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::TracedDesk</name>
    <message numerus="yes">
        <source>Join %n symbols</source>
        <translation>
            <numerusform>Join %n symbol</numerusform>
            <numerusform>Join %n symbols</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n symbols are one now, %1.</source>
        <translation>
            <numerusform>%n symbol is one now, %1.</numerusform>
            <numerusform>%n symbols are one now, %1.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Unpick %n symbols</source>
        <translation>
            <numerusform>Unpick %n symbol</numerusform>
            <numerusform>Unpick %n symbols</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n symbols are bare ground now.</source>
        <translation>
            <numerusform>%n symbol is bare ground now.</numerusform>
            <numerusform>%n symbols are bare ground now.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Accept %n cells</source>
        <translation>
            <numerusform>Accept %n cell</numerusform>
            <numerusform>Accept %n cells</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Unpick %n cells</source>
        <translation>
            <numerusform>Unpick %n cell</numerusform>
            <numerusform>Unpick %n cells</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Change %n cells to %1</source>
        <translation>
            <numerusform>Change %n cell to %1</numerusform>
            <numerusform>Change %n cells to %1</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n cells are a symbol of their own now, %1.</source>
        <translation>
            <numerusform>%n cell is a symbol of its own now, %1.</numerusform>
            <numerusform>%n cells are a symbol of their own now, %1.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::TracedView</name>
    <message numerus="yes">
        <source>All %Ln like it</source>
        <translation>
            <numerusform>All %Ln like it</numerusform>
            <numerusform>All %Ln like it</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%Ln doubtful cells left</source>
        <translation>
            <numerusform>%Ln doubtful cell left</numerusform>
            <numerusform>%Ln doubtful cells left</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::ContactSheet</name>
    <message numerus="yes">
        <source>%Ln doubtful</source>
        <translation>
            <numerusform>%Ln doubtful</numerusform>
            <numerusform>%Ln doubtful</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Accept %Ln</source>
        <translation>
            <numerusform>Accept %Ln</numerusform>
            <numerusform>Accept %Ln</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Accept all %Ln</source>
        <translation>
            <numerusform>Accept %Ln</numerusform>
            <numerusform>Accept all %Ln</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1: %Ln cells</source>
        <translation>
            <numerusform>%1: %Ln cell</numerusform>
            <numerusform>%1: %Ln cells</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%Ln cells are selected</source>
        <translation>
            <numerusform>%Ln cell is selected</numerusform>
            <numerusform>%Ln cells are selected</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::PieceSketch</name>
    <message numerus="yes">
        <source>How the %n pieces lie</source>
        <translation>
            <numerusform>How the %n piece lies</numerusform>
            <numerusform>How the %n pieces lie</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::TraceDialog</name>
    <message numerus="yes">
        <source>Trace pages of %n files</source>
        <translation>
            <numerusform>Trace pages of %n file</numerusform>
            <numerusform>Trace pages of %n files</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::ChartBar</name>
    <message numerus="yes">
        <source>%Ln doubtful cells left</source>
        <translation>
            <numerusform>%Ln doubtful cell left</numerusform>
            <numerusform>%Ln doubtful cells left</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::PageList</name>
    <message numerus="yes">
        <source>%1 (and %n more files refused)</source>
        <translation>
            <numerusform>%1 (and %n more file refused)</numerusform>
            <numerusform>%1 (and %n more files refused)</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::OtherSymbol</name>
    <message numerus="yes">
        <source>%1: %Ln cells</source>
        <translation>
            <numerusform>%1: %Ln cell</numerusform>
            <numerusform>%1: %Ln cells</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::SymbolModel</name>
    <message numerus="yes">
        <source>%1: %Ln cells</source>
        <translation>
            <numerusform>%1: %Ln cell</numerusform>
            <numerusform>%1: %Ln cells</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>otherskein::app::SymbolWall</name>
    <message numerus="yes">
        <source>%Ln symbols</source>
        <translation>
            <numerusform>%Ln symbol</numerusform>
            <numerusform>%Ln symbols</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%Ln picked</source>
        <translation>
            <numerusform>%Ln picked</numerusform>
            <numerusform>%Ln picked</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Join %Ln</source>
        <translation>
            <numerusform>Join %Ln</numerusform>
            <numerusform>Join %Ln</numerusform>
        </translation>
    </message>
</context>
</TS>
