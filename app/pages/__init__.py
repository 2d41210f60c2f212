"""The pages by which something gets into the workbench: cloth, draft, drawing."""
