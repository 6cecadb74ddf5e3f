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
        <source>of %n threads, on %1</source>
        <translation>
            <numerusform>of %n thread, on %1</numerusform>
            <numerusform>of %n threads, on %1</numerusform>
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
</TS>
